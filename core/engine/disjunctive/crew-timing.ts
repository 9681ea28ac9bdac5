import type { MachineShop } from './machine-shop';
import { routesOf } from './routes';

/**
 * When each run of an order begins and ends: as soon as its predecessor, its machine and some operator are free of the
 * runs before it in the order. Of the operators free by then it takes the one free last, for the others may be wanted
 * sooner; if none is, the first to come free.
 *
 * Data layout: one Int32Array per fact, indexed by run, with one entry more for `nobody`, who stands wherever there is no
 * run before or after and whose `end` and `way` are 0. `machineBefore`, `machineAfter`, `operatorBefore` and
 * `operatorAfter` are the sequences as linked lists; `way` is the longest way through a run to the end of all along them
 * and the routes. `freeAt` and `wayAt` hold, for every place of the order, when each operator is free of the runs before
 * the place and what way leads on from the operator's next run at or behind it.
 */
export class CrewTiming {
  readonly nobody: number;
  readonly order: Int32Array;
  readonly place: Int32Array;
  readonly machine: Int32Array;
  readonly minutes: Int32Array;
  readonly routeBefore: Int32Array;
  readonly routeAfter: Int32Array;
  readonly lagBefore: Int32Array;
  readonly lagAfter: Int32Array;
  readonly start: Int32Array;
  readonly end: Int32Array;
  readonly way: Int32Array;
  readonly machineBefore: Int32Array;
  readonly machineAfter: Int32Array;
  readonly operatorBefore: Int32Array;
  readonly operatorAfter: Int32Array;
  readonly freeAt: Int32Array;
  readonly wayAt: Int32Array;
  readonly operators: number;
  makespan = 0;
  /** The mark of the schedule that `makespanWith` timed last. */
  trialMark = 0;

  /** For every place of the order, what the ends of the runs before it bring to the mark. */
  private readonly markAt: Int32Array;
  /** What a minute of each run's end weighs in the mark: odd numbers, scattered by multiplying. */
  private readonly weight: Int32Array;
  private readonly trialEnd: Int32Array;
  private readonly trialFree: Int32Array;
  private readonly operatorOf: Int32Array;
  private readonly lastOn: Int32Array;
  private readonly lastOf: Int32Array;

  constructor(readonly shop: MachineShop) {
    const { count } = shop;
    const column = () => new Int32Array(count + 1);
    const routes = routesOf(shop);
    this.nobody = count;
    // More operators than runs are as good as one for each.
    this.operators = Math.min(shop.operators, count);
    this.order = new Int32Array(count);
    this.markAt = column();
    this.weight = Int32Array.from({ length: count }, (_, run) => {
      const mixed = Math.imul((run + 1) ^ ((run + 1) >>> 7), 0x9e3779b1);
      return Math.imul(mixed ^ (mixed >>> 15), 0x85ebca6b) | 1;
    });
    this.place = column();
    // Nobody stands behind all.
    this.place[count] = count;
    this.machine = column();
    this.minutes = column();
    this.routeBefore = routes.routeBefore;
    this.routeAfter = routes.routeAfter;
    this.lagBefore = routes.lagBefore;
    this.lagAfter = routes.lagAfter;
    this.start = column();
    this.end = column();
    this.way = column();
    this.machineBefore = column();
    this.machineAfter = column();
    this.operatorBefore = column();
    this.operatorAfter = column();
    this.operatorOf = column();
    this.trialEnd = column();
    this.trialFree = new Int32Array(this.operators);
    this.freeAt = new Int32Array((count + 1) * this.operators);
    this.wayAt = new Int32Array((count + 1) * this.operators);
    this.lastOn = new Int32Array(shop.machines);
    this.lastOf = new Int32Array(this.operators);
  }

  load(order: Int32Array, option: Int32Array): void {
    const { shop } = this;
    this.order.set(order);
    for (let run = 0; run < shop.count; run++) {
      this.machine[run] = shop.optionMachine[option[run]!]!;
      this.minutes[run] = shop.optionCut[option[run]!]!;
    }
    this.settle();
  }

  /** Times the order, puts it into the order of starts, times that, and measures the ways on. */
  settle(): void {
    const { order, place, start, nobody } = this;
    this.build();
    // It is nearly in order already. Equal starts stay as they stood.
    for (let i = 1; i < nobody; i++) {
      const run = order[i]!;
      let at = i;
      while (at > 0 && start[order[at - 1]!]! > start[run]!) {
        order[at] = order[at - 1]!;
        at--;
      }
      order[at] = run;
    }
    for (let i = 0; i < nobody; i++) place[order[i]!] = i;
    this.build();
    this.measureWays();
  }

  /** When all would end if the runs from one place to another stood as they do there in another order. */
  makespanWith(other: Int32Array, from: number, to: number): number {
    const { order, trialEnd, trialFree, freeAt, operators, nobody, machine, minutes, lastOn } = this;
    const { routeBefore, lagBefore } = this;
    const { release } = this.shop;
    lastOn.fill(nobody);
    let makespan = 0;
    for (let i = 0; i < from; i++) {
      const run = order[i]!;
      lastOn[machine[run]!] = run;
      trialEnd[run] = this.end[run]!;
      if (trialEnd[run]! > makespan) makespan = trialEnd[run]!;
    }
    for (let p = 0; p < operators; p++) trialFree[p] = freeAt[from * operators + p]!;
    let mark = this.markAt[from]!;
    for (let i = from; i < nobody; i++) {
      const run = i <= to ? other[i]! : order[i]!;
      const on = machine[run]!;
      let begin = release[run]!;
      const off = trialEnd[routeBefore[run]!]! + lagBefore[run]!;
      if (off > begin) begin = off;
      if (trialEnd[lastOn[on]!]! > begin) begin = trialEnd[lastOn[on]!]!;
      const operator = chosenOperator(trialFree, 0, operators, begin);
      if (trialFree[operator]! > begin) begin = trialFree[operator]!;
      const until = begin + minutes[run]!;
      mark = (mark + Math.imul(until, this.weight[run]!)) | 0;
      trialEnd[run] = until;
      trialFree[operator] = until;
      lastOn[on] = run;
      if (until > makespan) makespan = until;
    }
    this.trialMark = mark;
    return makespan;
  }

  /** A number that all ends go into: schedules that differ have the same one as good as never. */
  get mark(): number {
    return this.markAt[this.nobody]!;
  }

  private build(): void {
    const { order, start, end, freeAt, operators, nobody, machine, minutes, lastOn, lastOf } = this;
    const { routeBefore, lagBefore, machineBefore, machineAfter, operatorBefore, operatorAfter, operatorOf } = this;
    const { release } = this.shop;
    lastOn.fill(nobody);
    lastOf.fill(nobody);
    freeAt.fill(0, 0, operators);
    let mark = 0;
    this.markAt[0] = 0;
    let makespan = 0;
    for (let i = 0; i < nobody; i++) {
      const run = order[i]!;
      const last = lastOn[machine[run]!]!;
      let from = release[run]!;
      const off = end[routeBefore[run]!]! + lagBefore[run]!;
      if (off > from) from = off;
      if (end[last]! > from) from = end[last]!;
      const row = i * operators;
      const operator = chosenOperator(freeAt, row, operators, from);
      if (freeAt[row + operator]! > from) from = freeAt[row + operator]!;
      const until = from + minutes[run]!;
      start[run] = from;
      end[run] = until;
      mark = (mark + Math.imul(until, this.weight[run]!)) | 0;
      this.markAt[i + 1] = mark;
      if (until > makespan) makespan = until;
      machineBefore[run] = last;
      machineAfter[last] = run;
      machineAfter[run] = nobody;
      lastOn[machine[run]!] = run;
      operatorBefore[run] = lastOf[operator]!;
      operatorAfter[lastOf[operator]!] = run;
      operatorAfter[run] = nobody;
      lastOf[operator] = run;
      operatorOf[run] = operator;
      for (let p = 0; p < operators; p++) freeAt[row + operators + p] = freeAt[row + p]!;
      freeAt[row + operators + operator] = until;
    }
    machineAfter[nobody] = nobody;
    operatorAfter[nobody] = nobody;
    this.makespan = makespan;
  }

  private measureWays(): void {
    const { order, way, wayAt, operators, nobody, minutes } = this;
    const { routeAfter, lagAfter, machineAfter, operatorAfter, operatorOf } = this;
    wayAt.fill(0, nobody * operators);
    for (let i = nobody - 1; i >= 0; i--) {
      const run = order[i]!;
      let out = way[routeAfter[run]!]! + lagAfter[run]!;
      if (way[machineAfter[run]!]! > out) out = way[machineAfter[run]!]!;
      if (way[operatorAfter[run]!]! > out) out = way[operatorAfter[run]!]!;
      way[run] = out + minutes[run]!;
      const row = i * operators;
      for (let p = 0; p < operators; p++) wayAt[row + p] = wayAt[row + operators + p]!;
      wayAt[row + operatorOf[run]!] = way[run]!;
    }
  }
}

/** Of the operators whose times of coming free begin at `row`, the one for a run that may begin at `from`. */
export function chosenOperator(free: Int32Array, row: number, operators: number, from: number): number {
  let operator = 0;
  let best = free[row]!;
  for (let p = 1; p < operators; p++) {
    const at = free[row + p]!;
    if (best > from ? at < best : at <= from && at > best) {
      operator = p;
      best = at;
    }
  }
  return operator;
}
