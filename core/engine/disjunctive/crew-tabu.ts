import type { Random } from '../random';
import { CrewTiming } from './crew-timing';
import type { MachineShop } from './machine-shop';
import type { SequenceSearch } from './sequence-search';
import { SLOTS, slot } from './tabu-list';

const NO_MOVE = Number.MAX_SAFE_INTEGER;

/** A price is the makespan in so many parts, and of equal makespans the longest way through what moved decides. */
const PARTS = 2 ** 20;

/**
 * Tabu search where every run needs, besides its machine, one of a few interchangeable operators throughout. A sequence
 * is an order of all runs; each begins as soon as its predecessor, its machine and some operator are free of those
 * before it in the order. A move puts a run of the critical path before one it waited for, or that one behind it, and
 * is priced by building the whole sequence anew: with operators an estimate from heads and tails would miss who comes
 * free.
 */
export class CrewTabu implements SequenceSearch {
  best = NO_MOVE;
  readonly bestOrder: Int32Array;
  readonly bestOption: Int32Array;

  private readonly order: Int32Array;
  private readonly trial: Int32Array;
  private readonly chosen: Int32Array;
  private readonly option: Int32Array;
  private readonly place: Int32Array;
  private readonly timing: CrewTiming;
  private readonly trialTiming: CrewTiming;
  private readonly path: Int32Array;
  /** 1 for the runs that the move being tried takes along. */
  private readonly goes: Uint8Array;
  private readonly until = new Int32Array(SLOTS);
  private moves = 0;
  private chosenPrice = NO_MOVE;
  private chosenFirst = -1;
  private chosenSecond = -1;
  private ties = 0;

  constructor(
    private readonly shop: MachineShop,
    private readonly random: Random,
  ) {
    const column = () => new Int32Array(shop.count);
    this.bestOrder = column();
    this.bestOption = column();
    this.order = column();
    this.trial = column();
    this.chosen = column();
    this.option = column();
    this.place = column();
    this.path = column();
    this.goes = new Uint8Array(shop.count);
    this.timing = new CrewTiming(shop);
    this.trialTiming = new CrewTiming(shop);
  }

  begin(order: Int32Array, option: Int32Array): void {
    this.order.set(order);
    this.option.set(option);
    this.until.fill(0);
    this.moves = 0;
    this.best = NO_MOVE;
    this.settle();
  }

  move(): boolean {
    this.moves++;
    this.chosenPrice = NO_MOVE;
    this.ties = 0;
    const length = this.tracePath();
    for (let i = 0; i < this.order.length; i++) this.place[this.order[i]!] = i;
    for (let i = 0; i < length; i++) this.considerRun(this.path[i]!);
    if (this.chosenPrice === NO_MOVE) return false;
    // The pair may not be turned back for a while.
    const tenure = 8 + this.random.below(10);
    this.until[slot(this.chosenFirst, this.chosenSecond)] = this.moves + tenure;
    this.order.set(this.chosen);
    this.settle();
    return true;
  }

  /** Builds the order as it stands, brings it into the order of starts, and keeps it if it is the best. */
  private settle(): void {
    const { order, timing, option } = this;
    const { start } = timing;
    timing.build(order, option, order.length);
    for (let i = 0; i < order.length; i++) this.place[order[i]!] = i;
    order.sort((a, b) => start[a]! - start[b]! || this.place[a]! - this.place[b]!);
    const makespan = timing.build(order, option, order.length);
    timing.measureTails(order, option);
    if (makespan >= this.best) return;
    this.best = makespan;
    this.bestOrder.set(order);
    this.bestOption.set(this.option);
  }

  /** One chain of runs without a pause that ends last, from its end back; where it forks, by chance. */
  private tracePath(): number {
    const { shop, path, random } = this;
    const { start, end, machinePrevious, operatorPrevious } = this.timing;
    let makespan = 0;
    for (let run = 0; run < shop.count; run++) if (end[run]! > makespan) makespan = end[run]!;
    let run = -1;
    let seen = 0;
    for (let r = 0; r < shop.count; r++) if (end[r] === makespan && random.below(++seen) === 0) run = r;
    let length = 0;
    while (run >= 0) {
      path[length++] = run;
      let next = -1;
      let ways = 0;
      const before = shop.before[run]!;
      if (before >= 0 && end[before]! + shop.lag[run]! === start[run] && random.below(++ways) === 0) next = before;
      for (const other of [machinePrevious[run]!, operatorPrevious[run]!]) {
        if (other >= 0 && end[other] === start[run] && random.below(++ways) === 0) next = other;
      }
      run = next;
    }
    return length;
  }

  /** Every run that keeps this one from beginning sooner: on its machine, or with an operator just before it begins. */
  private considerRun(run: number): void {
    const { shop } = this;
    const { start, end, machinePrevious, operatorPrevious } = this.timing;
    const begin = start[run]!;
    const machine = machinePrevious[run]!;
    if (machine >= 0 && end[machine] === begin && !this.leadsTo(machine, run)) {
      this.considerPair(machine, run);
      const before = machinePrevious[machine]!;
      if (before >= 0 && end[before] === start[machine] && !this.leadsTo(before, run)) this.considerPair(before, run);
      return;
    }
    const operator = operatorPrevious[run]!;
    if (operator < 0 || end[operator] !== begin) return;
    let found = 0;
    for (let i = this.place[run]! - 1; i >= 0 && found < shop.operators; i--) {
      const other = this.order[i]!;
      if (end[other]! < begin || this.leadsTo(other, run)) continue;
      found++;
      this.considerPair(other, run);
    }
  }

  /** True if `first` comes before `second` on one route. */
  private leadsTo(first: number, second: number): boolean {
    let run = second;
    while (run >= 0 && run !== first) run = this.shop.before[run]!;
    return run === first;
  }

  /** `second` to just before `first`, and `first` to just behind `second`; their predecessors and successors go along. */
  private considerPair(first: number, second: number): void {
    const isTabu = this.until[slot(second, first)]! > this.moves;
    this.pull(first, second);
    this.weigh(first, second, isTabu);
    this.push(first, second);
    this.weigh(first, second, isTabu);
  }

  /** Writes into `trial` the order with `second`, and those of its predecessors in between, right before `first`. */
  private pull(first: number, second: number): void {
    const { order, trial, place, shop, goes } = this;
    const [from, to] = [place[first]!, place[second]!];
    for (let run = second; run >= 0 && place[run]! > from; run = shop.before[run]!) goes[run] = 1;
    this.partition(from, to, 1);
    for (let i = from; i <= to; i++) goes[trial[i]!] = 0;
    trial.set(order.subarray(0, from), 0);
    trial.set(order.subarray(to + 1), to + 1);
  }

  /** Writes into `trial` the order with `first`, and those of its successors in between, right behind `second`. */
  private push(first: number, second: number): void {
    const { order, trial, place, shop, goes } = this;
    const [from, to] = [place[first]!, place[second]!];
    for (let run = first; run >= 0 && place[run]! < to; run = shop.after[run]!) goes[run] = 1;
    this.partition(from, to, 0);
    for (let i = from; i <= to; i++) goes[trial[i]!] = 0;
    trial.set(order.subarray(0, from), 0);
    trial.set(order.subarray(to + 1), to + 1);
  }

  /** Between two places of `trial`: first the runs whose mark in `goes` is `leading`, then the others, in order each. */
  private partition(from: number, to: number, leading: number): void {
    const { order, trial, goes } = this;
    let at = from;
    for (let i = from; i <= to; i++) if (goes[order[i]!] === leading) trial[at++] = order[i]!;
    for (let i = from; i <= to; i++) if (goes[order[i]!] !== leading) trial[at++] = order[i]!;
  }

  private weigh(first: number, second: number, isTabu: boolean): void {
    const price = this.priceBetween(this.place[first]!, this.place[second]!);
    if (isTabu && Math.floor(price / PARTS) >= this.best) return;
    if (price > this.chosenPrice) return;
    if (price < this.chosenPrice) {
      this.chosenPrice = price;
      this.ties = 0;
    }
    if (this.random.below(++this.ties) > 0) return;
    this.chosen.set(this.trial);
    this.chosenFirst = first;
    this.chosenSecond = second;
  }

  /** The makespan of `trial`, and the longest way through its runs from one place to another, their tails as they were. */
  private priceBetween(from: number, to: number): number {
    const { trial, trialTiming, timing } = this;
    const makespan = trialTiming.build(trial, this.option, trial.length);
    let longest = 0;
    for (let i = from; i <= to; i++) {
      const run = trial[i]!;
      const way = trialTiming.end[run]! + timing.tail[run]!;
      if (way > longest) longest = way;
    }
    return makespan * PARTS + Math.min(longest, PARTS - 1);
  }
}
