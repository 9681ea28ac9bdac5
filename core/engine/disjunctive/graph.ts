import type { MachineShop } from './machine-shop';
import { routesOf } from './routes';

/**
 * A machine shop with every machine's runs in a sequence: the disjunctive graph with its arcs chosen.
 *
 * Data layout: one Int32Array per fact, indexed by run, with one entry more for `nobody`, who stands wherever there is no
 * run before or after and whose `end` and `way` are 0, so that no loop asks whether a neighbour is there. `machineBefore`
 * and `machineAfter` are the sequences as doubly linked lists. `end` is the longest way through the run from the
 * beginning of all, `way` the longest way through it to the end of all, its own minutes in both. `order` lists the runs
 * so that each comes after all that lead to it, and `place` is where each stands in it: after a change of one sequence
 * only the ends from the first run it touches on, and the ways from the last one back, are worked out anew. (Passing over
 * those of them that nothing has changed for was tried; telling them apart took longer.) Everything is allocated once; a search of millions of moves only writes into it.
 */
export class Graph {
  readonly nobody: number;
  readonly option: Int32Array;
  readonly machine: Int32Array;
  readonly minutes: Int32Array;
  readonly routeBefore: Int32Array;
  readonly routeAfter: Int32Array;
  readonly lagBefore: Int32Array;
  readonly lagAfter: Int32Array;
  readonly machineBefore: Int32Array;
  readonly machineAfter: Int32Array;
  /** The first run of each machine's sequence, `nobody` if it has none. */
  readonly firstOn: Int32Array;
  readonly end: Int32Array;
  readonly way: Int32Array;
  readonly order: Int32Array;
  readonly place: Int32Array;
  makespan = 0;

  readonly release: Int32Array;
  private readonly lastOn: Int32Array;
  /** The last run of every route. */
  readonly lastRuns: Int32Array;
  private readonly moved: Int32Array;
  private readonly mark: Int32Array;
  private marks = 0;

  constructor(readonly shop: MachineShop) {
    const { count } = shop;
    const column = () => new Int32Array(count + 1);
    const routes = routesOf(shop);
    this.nobody = count;
    this.option = new Int32Array(count);
    this.machine = column().fill(-1);
    this.minutes = column();
    this.routeBefore = routes.routeBefore;
    this.routeAfter = routes.routeAfter;
    this.lagBefore = routes.lagBefore;
    this.lagAfter = routes.lagAfter;
    this.release = column();
    this.release.set(shop.release);
    this.machineBefore = column();
    this.machineAfter = column();
    this.end = column();
    this.way = column();
    this.order = new Int32Array(count);
    this.place = column();
    // Nobody stands behind all.
    this.place[count] = count;
    this.moved = new Int32Array(count);
    this.mark = column();
    this.firstOn = new Int32Array(shop.machines);
    this.lastOn = new Int32Array(shop.machines);
    this.lastRuns = Int32Array.from({ length: count }, (_, run) => run).filter((run) => shop.after[run]! < 0);
  }

  /** Sequences every machine by an order in which no run comes before its predecessor; options as given. */
  load(order: Int32Array, option: Int32Array): void {
    const { nobody, lastOn, machineBefore, machineAfter } = this;
    lastOn.fill(nobody);
    this.firstOn.fill(nobody);
    machineBefore.fill(nobody);
    machineAfter.fill(nobody);
    for (let i = 0; i < nobody; i++) {
      const run = order[i]!;
      this.order[i] = run;
      this.place[run] = i;
      this.setOption(run, option[run]!);
      const machine = this.machine[run]!;
      const last = lastOn[machine]!;
      machineBefore[run] = last;
      if (last === nobody) this.firstOn[machine] = run;
      else machineAfter[last] = run;
      lastOn[machine] = run;
    }
    this.renewEnds(0);
    this.renewWays(nobody - 1);
    this.measure();
  }

  /**
   * Takes a run out of its sequence and puts it, with an option, right behind `before` on that option's machine, first
   * there if that is `nobody`. False, and all as it was, if that would close a circle.
   */
  relocate(run: number, option: number, before: number): boolean {
    const { nobody, machineBefore, machineAfter, place } = this;
    const oldOption = this.option[run]!;
    const oldBefore = machineBefore[run]!;
    const oldAfter = machineAfter[run]!;
    this.take(run);
    this.setOption(run, option);
    const after = before === nobody ? this.firstOn[this.machine[run]!]! : machineAfter[before]!;
    this.put(run, before, after);
    const isInOrder =
      (before === nobody || place[before]! < place[run]! || this.sendBehind(run, before)) &&
      (after === nobody || place[after]! > place[run]! || this.sendAhead(run, after));
    if (!isInOrder) {
      this.take(run);
      this.setOption(run, oldOption);
      this.put(run, oldBefore, oldAfter);
      return false;
    }
    let first = place[run]!;
    if (place[oldAfter]! < first) first = place[oldAfter]!;
    if (place[after]! < first) first = place[after]!;
    let last = place[run]!;
    if (oldBefore !== nobody && place[oldBefore]! > last) last = place[oldBefore]!;
    if (before !== nobody && place[before]! > last) last = place[before]!;
    this.renewEnds(first);
    this.renewWays(last);
    this.measure();
    return true;
  }

  private measure(): void {
    const { lastRuns, end } = this;
    let makespan = 0;
    for (let i = 0; i < lastRuns.length; i++) {
      const last = end[lastRuns[i]!]!;
      if (last > makespan) makespan = last;
    }
    this.makespan = makespan;
  }

  /** Works out the ends of the runs from a place on. */
  private renewEnds(first: number): void {
    const { order, end, routeBefore, machineBefore, lagBefore, release, minutes, nobody } = this;
    for (let i = first; i < nobody; i++) {
      const run = order[i]!;
      let from = end[routeBefore[run]!]! + lagBefore[run]!;
      const free = end[machineBefore[run]!]!;
      if (free > from) from = free;
      if (release[run]! > from) from = release[run]!;
      end[run] = from + minutes[run]!;
    }
  }

  /** Works out the ways of the runs from a place back. */
  private renewWays(last: number): void {
    const { order, way, routeAfter, machineAfter, lagAfter, minutes } = this;
    for (let i = last; i >= 0; i--) {
      const run = order[i]!;
      let out = way[routeAfter[run]!]! + lagAfter[run]!;
      const free = way[machineAfter[run]!]!;
      if (free > out) out = free;
      way[run] = out + minutes[run]!;
    }
  }

  private setOption(run: number, option: number): void {
    this.option[run] = option;
    this.machine[run] = this.shop.optionMachine[option]!;
    this.minutes[run] = this.shop.optionCut[option]!;
  }

  private put(run: number, before: number, after: number): void {
    const { nobody, machineBefore, machineAfter } = this;
    machineBefore[run] = before;
    machineAfter[run] = after;
    if (before === nobody) this.firstOn[this.machine[run]!] = run;
    else machineAfter[before] = run;
    if (after !== nobody) machineBefore[after] = run;
  }

  private take(run: number): void {
    const { nobody, machineBefore, machineAfter } = this;
    const before = machineBefore[run]!;
    const after = machineAfter[run]!;
    if (before === nobody) this.firstOn[this.machine[run]!] = after;
    else machineAfter[before] = after;
    if (after !== nobody) machineBefore[after] = before;
  }

  /** Moves a run, and what it leads to in between, right behind `target` in the order; false if it leads to `target`. */
  private sendBehind(run: number, target: number): boolean {
    const { order, place, mark, moved, routeBefore, machineBefore } = this;
    const stamp = ++this.marks;
    const from = place[run]!;
    const to = place[target]!;
    mark[run] = stamp;
    for (let i = from + 1; i <= to; i++) {
      const r = order[i]!;
      if (mark[routeBefore[r]!] === stamp || mark[machineBefore[r]!] === stamp) mark[r] = stamp;
    }
    if (mark[target] === stamp) return false;
    let kept = from;
    let behind = 0;
    for (let i = from; i <= to; i++) {
      const r = order[i]!;
      if (mark[r] === stamp) {
        moved[behind++] = r;
      } else {
        place[r] = kept;
        order[kept++] = r;
      }
    }
    for (let i = 0; i < behind; i++) {
      place[moved[i]!] = kept;
      order[kept++] = moved[i]!;
    }
    return true;
  }

  /** Moves a run, and what leads to it in between, right ahead of `target` in the order; false if `target` leads to it. */
  private sendAhead(run: number, target: number): boolean {
    const { order, place, mark, moved, routeAfter, machineAfter } = this;
    const stamp = ++this.marks;
    const from = place[run]!;
    const to = place[target]!;
    mark[run] = stamp;
    for (let i = from - 1; i >= to; i--) {
      const r = order[i]!;
      if (mark[routeAfter[r]!] === stamp || mark[machineAfter[r]!] === stamp) mark[r] = stamp;
    }
    if (mark[target] === stamp) return false;
    let kept = from;
    let ahead = 0;
    for (let i = from; i >= to; i--) {
      const r = order[i]!;
      if (mark[r] === stamp) {
        moved[ahead++] = r;
      } else {
        place[r] = kept;
        order[kept--] = r;
      }
    }
    for (let i = 0; i < ahead; i++) {
      place[moved[i]!] = kept;
      order[kept--] = moved[i]!;
    }
    return true;
  }
}
