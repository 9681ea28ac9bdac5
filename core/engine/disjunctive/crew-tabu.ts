import type { Random } from '../random';
import { CrewTiming, chosenOperator } from './crew-timing';
import type { MachineShop } from './machine-shop';
import type { SequenceSearch } from './sequence-search';
import { SLOTS, slot } from './tabu-list';

const NO_MOVE = 0x3fffffff;

/** Moves for which a turned pair may not be turned back: at least so many, and less than twice as many. */
const TENURE = 20;

/** Of the moves with the lowest estimates so many are timed in full. */
const FINALISTS = 6;

/**
 * Tabu search where every run needs, besides its machine, one of a few interchangeable operators throughout. A sequence
 * is an order of all runs by their starts. A move puts a run of the critical path before one it waited for, or that one
 * behind it, and their predecessors or successors in between go along. It is priced by timing the runs between the two
 * anew, operators included, and adding the ways on from there: the operators that come free first take over from those
 * that did so before. Of the moves with the lowest prices some are timed in full, and the one that ends first is made.
 * A move that changes no time is none, and one to a schedule that has been there is made only if there is no other:
 * forbidding pairs alone, the search went round among a few dozen schedules, most moves changing nothing.
 */
export class CrewTabu implements SequenceSearch {
  best = NO_MOVE;
  readonly bestOrder: Int32Array;
  readonly bestOption: Int32Array;

  private readonly timing: CrewTiming;
  private readonly trial: Int32Array;
  private readonly option: Int32Array;
  private readonly path: Int32Array;
  /** 1 for the runs that the move being tried takes along. */
  private readonly goes: Uint8Array;
  private readonly trialEnd: Int32Array;
  private readonly lastOn: Int32Array;
  private readonly free: Int32Array;
  private readonly rank: Int32Array;
  private readonly until = new Int32Array(SLOTS);
  /** The marks of the schedules that there have been since the beginning. */
  private readonly visited = new Int32Array(SLOTS);
  private moves = 0;
  /** The moves with the lowest prices, the lowest first. */
  private finalists = 0;
  private readonly price = new Int32Array(FINALISTS + 1);
  private readonly first = new Int32Array(FINALISTS + 1);
  private readonly second = new Int32Array(FINALISTS + 1);
  /** 1 where the second goes before the first, 0 where the first goes behind the second. */
  private readonly leading = new Uint8Array(FINALISTS + 1);

  constructor(
    private readonly shop: MachineShop,
    private readonly random: Random,
  ) {
    const column = () => new Int32Array(shop.count);
    this.timing = new CrewTiming(shop);
    this.bestOrder = column();
    this.bestOption = column();
    this.trial = column();
    this.option = column();
    this.path = column();
    this.goes = new Uint8Array(shop.count + 1);
    this.trialEnd = new Int32Array(shop.count + 1);
    this.lastOn = new Int32Array(shop.machines);
    this.free = new Int32Array(this.timing.operators);
    this.rank = new Int32Array(this.timing.operators);
  }

  begin(order: Int32Array, option: Int32Array): void {
    this.option.set(option);
    this.until.fill(0);
    this.visited.fill(0);
    this.moves = 0;
    this.timing.load(order, option);
    this.trialEnd.set(this.timing.end);
    this.noteVisit();
    this.best = NO_MOVE;
    this.keepIfBest();
  }

  move(): boolean {
    const { timing, trial } = this;
    this.moves++;
    this.finalists = 0;
    const length = this.tracePath();
    for (let i = 0; i < length; i++) this.considerRun(this.path[i]!);
    if (this.finalists === 0) return false;
    const chosen = this.chooseFinalist();
    const [first, second] = [this.first[chosen]!, this.second[chosen]!];
    // The pair may not be turned back for a while.
    this.until[slot(first, second)] = this.moves + TENURE + this.random.below(TENURE);
    this.arrange(first, second, this.leading[chosen]!);
    for (let i = timing.place[first]!, to = timing.place[second]!; i <= to; i++) timing.order[i] = trial[i]!;
    timing.settle();
    this.trialEnd.set(timing.end);
    this.noteVisit();
    this.keepIfBest();
    return true;
  }

  /**
   * The one that ends first when timed in full, of those to new schedules; of equal ones that with the lowest price, then
   * by chance.
   */
  private chooseFinalist(): number {
    const { timing, price } = this;
    let chosen = 0;
    let least = NO_MOVE;
    let ties = 0;
    for (let i = 0; i < this.finalists; i++) {
      const [first, second] = [this.first[i]!, this.second[i]!];
      this.arrange(first, second, this.leading[i]!);
      const makespan = timing.makespanWith(this.trial, timing.place[first]!, timing.place[second]!);
      if (this.wasVisited(timing.trialMark)) continue;
      if (makespan > least || (makespan === least && price[i]! > price[chosen]!)) continue;
      if (makespan < least || price[i]! < price[chosen]!) ties = 0;
      least = makespan;
      if (this.random.below(++ties) === 0) chosen = i;
    }
    return least === NO_MOVE ? this.random.below(this.finalists) : chosen;
  }

  private noteVisit(): void {
    const { mark } = this.timing;
    this.visited[mark & (SLOTS - 1)] = mark;
  }

  private wasVisited(mark: number): boolean {
    return this.visited[mark & (SLOTS - 1)] === mark;
  }

  private keepIfBest(): void {
    const { timing } = this;
    if (timing.makespan >= this.best) return;
    this.best = timing.makespan;
    this.bestOrder.set(timing.order);
    this.bestOption.set(this.option);
  }

  /** One chain of runs without a pause that ends last, from its end back; where it forks, by chance. */
  private tracePath(): number {
    const { path, random } = this;
    const { start, end, routeBefore, lagBefore, machineBefore, operatorBefore, makespan, nobody } = this.timing;
    let run = nobody;
    let seen = 0;
    for (let r = 0; r < nobody; r++) if (end[r] === makespan && random.below(++seen) === 0) run = r;
    let length = 0;
    while (run !== nobody) {
      path[length++] = run;
      const from = start[run]!;
      const [route, machine, operator] = [routeBefore[run]!, machineBefore[run]!, operatorBefore[run]!];
      let next = nobody;
      let ways = 0;
      if (route !== nobody && end[route]! + lagBefore[run]! === from && random.below(++ways) === 0) next = route;
      if (machine !== nobody && end[machine] === from && random.below(++ways) === 0) next = machine;
      if (ways === 0 && operator !== nobody && end[operator] === from) next = operator;
      run = next;
    }
    return length;
  }

  /** Every run that keeps this one from beginning sooner: on its machine, or with an operator just before it begins. */
  private considerRun(run: number): void {
    const { start, end, machineBefore, operatorBefore, order, place, nobody, operators } = this.timing;
    const begin = start[run]!;
    const machine = machineBefore[run]!;
    if (machine !== nobody && end[machine] === begin && !this.leadsTo(machine, run)) {
      this.considerPair(machine, run);
      const before = machineBefore[machine]!;
      if (before !== nobody && end[before] === start[machine] && !this.leadsTo(before, run))
        this.considerPair(before, run);
      return;
    }
    const operator = operatorBefore[run]!;
    if (operator === nobody || end[operator] !== begin) return;
    let found = 0;
    for (let i = place[run]! - 1; i >= 0 && found < operators; i--) {
      const other = order[i]!;
      if (end[other]! < begin || this.leadsTo(other, run)) continue;
      found++;
      this.considerPair(other, run);
    }
  }

  /** True if `first` comes before `second` on one route. */
  private leadsTo(first: number, second: number): boolean {
    const { routeBefore, nobody, place } = this.timing;
    let run = second;
    while (run !== nobody && place[run]! > place[first]!) run = routeBefore[run]!;
    return run === first;
  }

  /** `second` to just before `first`, and `first` to just behind `second`. */
  private considerPair(first: number, second: number): void {
    const isTabu = this.until[slot(second, first)]! > this.moves;
    this.weigh(first, second, 1, isTabu);
    this.weigh(first, second, 0, isTabu);
  }

  /** Writes into `trial` the runs from `first` to `second` with one of the two, and those it takes along, past the rest. */
  private arrange(first: number, second: number, leading: number): void {
    const { trial, goes } = this;
    const { order, place, routeBefore, routeAfter, nobody } = this.timing;
    const [from, to] = [place[first]!, place[second]!];
    if (leading === 1)
      for (let run = second; run !== nobody && place[run]! > from; run = routeBefore[run]!) goes[run] = 1;
    else for (let run = first; place[run]! < to; run = routeAfter[run]!) goes[run] = 1;
    let at = from;
    for (let i = from; i <= to; i++) if (goes[order[i]!] === leading) trial[at++] = order[i]!;
    for (let i = from; i <= to; i++) if (goes[order[i]!] !== leading) trial[at++] = order[i]!;
    for (let i = from; i <= to; i++) goes[order[i]!] = 0;
  }

  private weigh(first: number, second: number, leading: number, isTabu: boolean): void {
    const { price, finalists } = this;
    this.arrange(first, second, leading);
    const mine = this.priceBetween(this.timing.place[first]!, this.timing.place[second]!);
    if (mine === NO_MOVE || (isTabu && mine >= this.best)) return;
    let at = finalists;
    while (at > 0 && (price[at - 1]! > mine || (price[at - 1] === mine && this.random.next() < 0.5))) {
      price[at] = price[at - 1]!;
      this.first[at] = this.first[at - 1]!;
      this.second[at] = this.second[at - 1]!;
      this.leading[at] = this.leading[at - 1]!;
      at--;
    }
    price[at] = mine;
    this.first[at] = first;
    this.second[at] = second;
    this.leading[at] = leading;
    if (finalists < FINALISTS) this.finalists++;
  }

  /** The longest way through the runs between two places, as `trial` has them there; `NO_MOVE` if all end as they do. */
  private priceBetween(from: number, to: number): number {
    const { trial, trialEnd, lastOn, free } = this;
    const { order, end, way, machine, minutes, machineBefore, machineAfter, routeBefore, routeAfter } = this.timing;
    const { lagBefore, lagAfter, freeAt, place, operators } = this.timing;
    const { release } = this.shop;
    for (let i = to; i >= from; i--) lastOn[machine[order[i]!]!] = machineBefore[order[i]!]!;
    for (let p = 0; p < operators; p++) free[p] = freeAt[from * operators + p]!;
    let longest = 0;
    let isOther = false;
    for (let i = from; i <= to; i++) {
      const run = trial[i]!;
      const last = lastOn[machine[run]!]!;
      let begin = release[run]!;
      const off = trialEnd[routeBefore[run]!]! + lagBefore[run]!;
      if (off > begin) begin = off;
      if (trialEnd[last]! > begin) begin = trialEnd[last]!;
      const operator = chosenOperator(free, 0, operators, begin);
      if (free[operator]! > begin) begin = free[operator]!;
      const until = begin + minutes[run]!;
      if (until !== end[run]) isOther = true;
      trialEnd[run] = until;
      free[operator] = until;
      lastOn[machine[run]!] = run;
      let out = 0;
      const next = routeAfter[run]!;
      if (place[next]! > to) out = way[next]! + lagAfter[run]!;
      if (until + out > longest) longest = until + out;
    }
    for (let i = from; i <= to; i++) {
      const run = order[i]!;
      const next = machineAfter[run]!;
      // The last of its machine here, whichever that is now.
      if (place[next]! > to) {
        const until = trialEnd[lastOn[machine[run]!]!]! + way[next]!;
        if (until > longest) longest = until;
      }
    }
    for (let i = from; i <= to; i++) trialEnd[order[i]!] = end[order[i]!]!;
    return isOther ? this.takeOver(to + 1, longest) : NO_MOVE;
  }

  /** The longest way, too, where the operators in `free` go on as those did who had come free before a place. */
  private takeOver(at: number, longest: number): number {
    const { free, rank } = this;
    const { freeAt, wayAt, operators } = this.timing;
    const row = at * operators;
    for (let p = 0; p < operators; p++) {
      let k = p;
      while (k > 0 && freeAt[row + rank[k - 1]!]! > freeAt[row + p]!) {
        rank[k] = rank[k - 1]!;
        k--;
      }
      rank[k] = p;
      const mine = free[p]!;
      let j = p;
      while (j > 0 && free[j - 1]! > mine) {
        free[j] = free[j - 1]!;
        j--;
      }
      free[j] = mine;
    }
    let most = longest;
    for (let p = 0; p < operators; p++) {
      const until = free[p]! + wayAt[row + rank[p]!]!;
      if (until > most) most = until;
    }
    return most;
  }
}
