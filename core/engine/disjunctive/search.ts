import type { Random } from '../random';
import { CrewTabu } from './crew-tabu';
import type { MachineShop } from './machine-shop';
import type { SequenceSearch } from './sequence-search';
import { Tabu } from './tabu';

/** A sequence of all machines, as an order of the runs, with its makespan. */
interface Elite {
  readonly order: Int32Array;
  readonly option: Int32Array;
  makespan: number;
}

/** Members of the population, and moves without gain that end one tabu search (Peng, Lü & Cheng, C&OR 53, 2015). */
const POPULATION = 30;
const PATIENCE = 12_500;

/** With operators a move is dearer by far, so fewer are made in vain. */
const CREW_PATIENCE = 400;
const CREW_POPULATION = 8;

/** Moves of the search that does not know of operators before the one that does takes over. */
const SCOUTING = 3_000;

/**
 * Tabu search within a population: each new beginning lies on the way between two good sequences, and what tabu search
 * makes of it takes the place of the worst.
 *
 * The way between two is taken in their orders of runs: the mean of a run's places in two orders that respect the
 * routes respects them too, so every point on it is a legal sequence and nothing needs repair.
 */
export class DisjunctiveSearch {
  /** Replaced, never changed, when a better one is found. */
  best: Elite;

  private readonly tabu: SequenceSearch;
  /** Where operators are scarce too: the search that does not know of them, whose sequences are good ones to begin at. */
  private readonly scout: Tabu | null;
  private readonly patience: number;
  private readonly most: number;
  private readonly population: Elite[] = [];
  /** A better sequence that another search has found, to begin at next. */
  private guest: [order: Int32Array, option: Int32Array] | null = null;
  private sinceGain = 0;
  private lastBest = 0;
  private readonly keys: Float64Array;
  private readonly placesA: Int32Array;
  private readonly placesB: Int32Array;

  constructor(
    private readonly shop: MachineShop,
    private readonly random: Random,
    order: Int32Array,
    option: Int32Array,
  ) {
    this.tabu = shop.operators > 0 ? new CrewTabu(shop, random) : new Tabu(shop, random);
    this.scout = shop.operators > 0 ? new Tabu(shop, random) : null;
    this.patience = shop.operators > 0 ? CREW_PATIENCE : PATIENCE;
    this.most = shop.operators > 0 ? CREW_POPULATION : POPULATION;
    this.keys = new Float64Array(shop.count);
    this.placesA = new Int32Array(shop.count);
    this.placesB = new Int32Array(shop.count);
    this.begin(order, option);
    this.best = this.bestOfTabu();
  }

  /** Makes one move. */
  step(): void {
    const hasMoved = this.tabu.move();
    if (this.tabu.best < this.lastBest) {
      this.lastBest = this.tabu.best;
      this.sinceGain = 0;
      if (this.lastBest < this.best.makespan) this.best = this.bestOfTabu();
    } else if (++this.sinceGain > this.patience || !hasMoved) {
      this.endTabu();
    }
  }

  /** Takes in a better sequence that another search has found: tabu search begins there next. */
  join(order: Int32Array, option: Int32Array): void {
    this.guest = [order, option];
  }

  private bestOfTabu(): Elite {
    return { order: this.tabu.bestOrder.slice(), option: this.tabu.bestOption.slice(), makespan: this.tabu.best };
  }

  private begin(order: Int32Array, option: Int32Array): void {
    this.tabu.begin(order, option);
    this.lastBest = this.tabu.best;
    this.sinceGain = 0;
  }

  private endTabu(): void {
    this.admit(this.bestOfTabu());
    const { guest } = this;
    this.guest = null;
    if (guest !== null) this.begin(...guest);
    else if (this.population.length < this.most) this.beginAtRandom();
    else this.beginBetween();
  }

  /** Into the population unless one just as good is there already; the worst goes. */
  private admit(elite: Elite): void {
    const { population } = this;
    if (population.some((other) => other.makespan === elite.makespan && isSame(other.order, elite.order))) return;
    if (population.length < this.most) {
      population.push(elite);
      return;
    }
    let worst = 0;
    for (let i = 1; i < population.length; i++) if (population[i]!.makespan >= population[worst]!.makespan) worst = i;
    if (elite.makespan <= population[worst]!.makespan) population[worst] = elite;
  }

  /** A random sequence: runs drawn one by one from those whose predecessor is drawn. */
  private beginAtRandom(): void {
    const { shop, random, keys } = this;
    for (let run = 0; run < shop.count; run++) keys[run] = random.next();
    // A run's key is at least its predecessor's, and spread evenly along its job.
    for (let run = 0; run < shop.count; run++) {
      if (shop.before[run]! >= 0) continue;
      const chain: number[] = [];
      for (let r = run; r >= 0; r = shop.after[r]!) chain.push(r);
      const sorted = chain.map((r) => keys[r]!).sort((a, b) => a - b);
      chain.forEach((r, i) => {
        keys[r] = sorted[i]!;
      });
    }
    this.beginByKeys(this.best.option.map((option, run) => (random.next() < 0.5 ? option : this.anyOption(run))));
  }

  private anyOption(run: number): number {
    const first = this.shop.optionFirst[run]!;
    return first + this.random.below(this.shop.optionFirst[run + 1]! - first);
  }

  private beginBetween(): void {
    const { population, random, keys, placesA, placesB } = this;
    const a = population[random.below(population.length)]!;
    let b = a;
    while (b === a) b = population[random.below(population.length)]!;
    for (let i = 0; i < a.order.length; i++) {
      placesA[a.order[i]!] = i;
      placesB[b.order[i]!] = i;
    }
    const share = 0.3 + 0.4 * random.next();
    for (let run = 0; run < keys.length; run++) keys[run] = (1 - share) * placesA[run]! + share * placesB[run]!;
    this.beginByKeys(share < 0.5 ? a.option : b.option);
  }

  private beginByKeys(option: Int32Array): void {
    const { keys, shop, scout } = this;
    const order = Int32Array.from({ length: shop.count }, (_, run) => run);
    // Equal keys keep the number's order, in which a job's runs follow each other.
    order.sort((a, b) => keys[a]! - keys[b]! || a - b);
    if (scout === null || this.population.length >= this.most) {
      this.begin(order, option);
      return;
    }
    scout.begin(order, option);
    for (let i = 0; i < SCOUTING && scout.move(); i++);
    this.begin(scout.bestOrder, scout.bestOption);
  }
}

function isSame(a: Int32Array, b: Int32Array): boolean {
  return a.every((value, i) => value === b[i]);
}
