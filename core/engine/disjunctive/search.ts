import type { Random } from '../random';
import { CrewTabu } from './crew-tabu';
import type { Elite } from './elite';
import type { MachineShop } from './machine-shop';
import { Population } from './population';
import type { SequenceSearch } from './sequence-search';
import { Tabu } from './tabu';

/** Moves without gain that end one tabu search (Peng, Lü & Cheng, C&OR 53, 2015), and members of the first generation. */
const PATIENCE = 12_500;
const GENERATION = 12;

/** From so many runs on tabu search is so slow that the first generation is small. */
const LARGE = 1_000;
const LARGE_GENERATION = 4;

/** Where runs have machines to choose from a move is dearer and there are more of them; measured on mk06, mk07, mk10. */
const FLEXIBLE_PATIENCE = 3_000;

/** With operators a move is dearer by far, so fewer are made in vain. */
const CREW_PATIENCE = 400;
const CREW_GENERATION = 8;

/**
 * Moves, for every run, of the search that does not know of operators before the one that does takes over, and so many of
 * them in a step.
 */
const SCOUTING = 100;
const SCOUTING_AT_ONCE = 16;

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
  private scouting = 0;
  private readonly patience: number;
  private readonly population: Population;
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
    const hasCrew = shop.operators > 0;
    const isFlexible = shop.optionMachine.length > shop.count;
    this.tabu = hasCrew ? new CrewTabu(shop, random) : new Tabu(shop, random);
    this.scout = hasCrew ? new Tabu(shop, random) : null;
    this.patience = hasCrew ? CREW_PATIENCE : isFlexible ? FLEXIBLE_PATIENCE : PATIENCE;
    this.population = new Population(
      shop,
      random,
      hasCrew ? CREW_GENERATION : shop.count >= LARGE ? LARGE_GENERATION : GENERATION,
    );
    this.keys = new Float64Array(shop.count);
    this.placesA = new Int32Array(shop.count);
    this.placesB = new Int32Array(shop.count);
    this.begin(order, option);
    this.best = this.bestOfTabu();
  }

  /** Makes one move, or a few of those that cost least. */
  step(): void {
    const { scout, tabu } = this;
    if (scout !== null && this.scouting > 0) {
      this.reconnoitre(scout);
      return;
    }
    const hasMoved = tabu.move();
    if (tabu.best < this.lastBest) {
      this.noteGain();
    } else if (++this.sinceGain > this.patience || !hasMoved) {
      this.endTabu();
    }
  }

  /** Takes in a better sequence that another search has found: tabu search begins there next. */
  join(order: Int32Array, option: Int32Array): void {
    this.guest = [order, option];
  }

  private reconnoitre(scout: Tabu): void {
    for (let i = 0; i < SCOUTING_AT_ONCE && this.scouting > 0; i++) {
      this.scouting--;
      if (!scout.move()) this.scouting = 0;
    }
    if (this.scouting === 0) this.begin(scout.bestOrder, scout.bestOption);
  }

  private noteGain(): void {
    this.lastBest = this.tabu.best;
    this.sinceGain = 0;
    if (this.lastBest < this.best.makespan) this.best = this.bestOfTabu();
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
    this.population.admit(this.bestOfTabu());
    const { guest } = this;
    this.guest = null;
    if (guest !== null) {
      this.begin(...guest);
      if (this.lastBest < this.best.makespan) this.best = this.bestOfTabu();
    } else if (this.population.isFull) this.beginBetween();
    else this.beginAtRandom();
  }

  /** A random sequence: runs drawn one by one from those whose predecessor is drawn. */
  private beginAtRandom(): void {
    const { shop, random, keys, scout } = this;
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
    const option = this.best.option.map((chosen, run) => (random.next() < 0.5 ? chosen : this.anyOption(run)));
    if (scout === null) {
      this.begin(this.orderByKeys(), option);
    } else {
      scout.begin(this.orderByKeys(), option);
      this.scouting = SCOUTING * shop.count;
    }
  }

  private anyOption(run: number): number {
    const first = this.shop.optionFirst[run]!;
    return first + this.random.below(this.shop.optionFirst[run + 1]! - first);
  }

  private beginBetween(): void {
    const { population, random, keys, placesA, placesB } = this;
    const [a, b] = population.pair();
    for (let i = 0; i < a.order.length; i++) {
      placesA[a.order[i]!] = i;
      placesB[b.order[i]!] = i;
    }
    const share = 0.3 + 0.4 * random.next();
    for (let run = 0; run < keys.length; run++) keys[run] = (1 - share) * placesA[run]! + share * placesB[run]!;
    // Each run's machine is that of one or the other, the nearer one more often: all of them from one was worse.
    const option = a.option.map((own, run) => {
      const other = b.option[run]!;
      return own === other || random.next() >= share ? own : other;
    });
    this.begin(this.orderByKeys(), option);
  }

  private orderByKeys(): Int32Array {
    const { keys, shop } = this;
    // Equal keys keep the number's order, in which a job's runs follow each other.
    return Int32Array.from({ length: shop.count }, (_, run) => run).sort((a, b) => keys[a]! - keys[b]! || a - b);
  }
}
