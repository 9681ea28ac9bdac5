import type { MachineShop } from './machine-shop';

/**
 * A machine shop with every machine's runs in a sequence: the disjunctive graph with its arcs chosen.
 *
 * Data layout: one Int32Array per fact, indexed by run. `machineBefore` and `machineAfter` are the sequences as doubly
 * linked lists, `head` is the longest way into a run, `tail` the longest way out of it (its own minutes in neither),
 * `order` lists the runs so that each comes after its predecessors. Everything is allocated once; a search of millions
 * of moves only writes into it.
 */
export class Graph {
  readonly option: Int32Array;
  readonly machine: Int32Array;
  readonly minutes: Int32Array;
  readonly machineBefore: Int32Array;
  readonly machineAfter: Int32Array;
  /** The first run of each machine's sequence, -1 if it has none. */
  readonly firstOn: Int32Array;
  readonly head: Int32Array;
  readonly tail: Int32Array;
  readonly order: Int32Array;
  makespan = 0;

  private readonly waiting: Uint8Array;
  private readonly lastOn: Int32Array;

  constructor(readonly shop: MachineShop) {
    const column = () => new Int32Array(shop.count);
    this.option = column();
    this.machine = column();
    this.minutes = column();
    this.machineBefore = column();
    this.machineAfter = column();
    this.head = column();
    this.tail = column();
    this.order = column();
    this.waiting = new Uint8Array(shop.count);
    this.firstOn = new Int32Array(shop.machines);
    this.lastOn = new Int32Array(shop.machines);
  }

  /** Sequences every machine by an order in which no run comes before its predecessor; options as given. */
  load(order: Int32Array, option: Int32Array): void {
    const { shop, lastOn } = this;
    lastOn.fill(-1);
    this.firstOn.fill(-1);
    for (let i = 0; i < order.length; i++) {
      const run = order[i]!;
      const machine = shop.optionMachine[option[run]!]!;
      this.option[run] = option[run]!;
      this.machine[run] = machine;
      this.minutes[run] = shop.optionCut[option[run]!]!;
      const last = lastOn[machine]!;
      this.machineBefore[run] = last;
      this.machineAfter[run] = -1;
      if (last >= 0) this.machineAfter[last] = run;
      else this.firstOn[machine] = run;
      lastOn[machine] = run;
    }
    this.evaluate();
  }

  /** Puts a run that is in no sequence between `place` and `next` on its machine; -1 where there is none. */
  insert(run: number, place: number, next: number): void {
    const { machineBefore, machineAfter } = this;
    machineBefore[run] = place;
    machineAfter[run] = next;
    if (place >= 0) machineAfter[place] = run;
    else this.firstOn[this.machine[run]!] = run;
    if (next >= 0) machineBefore[next] = run;
  }

  /** Takes a run out of its machine's sequence. */
  remove(run: number): void {
    const { machineBefore, machineAfter } = this;
    const [before, after] = [machineBefore[run]!, machineAfter[run]!];
    if (before >= 0) machineAfter[before] = after;
    else this.firstOn[this.machine[run]!] = after;
    if (after >= 0) machineBefore[after] = before;
  }

  setOption(run: number, option: number): void {
    this.option[run] = option;
    this.machine[run] = this.shop.optionMachine[option]!;
    this.minutes[run] = this.shop.optionCut[option]!;
  }

  /** Works out heads, tails, order and makespan; false if the sequences run in a circle. */
  evaluate(): boolean {
    const { shop, machineBefore, machineAfter, head, tail, order, minutes, waiting } = this;
    const { before, after, lag, release } = shop;
    const count = shop.count;
    let ready = 0;
    for (let run = 0; run < count; run++) {
      const waits = (before[run]! >= 0 ? 1 : 0) + (machineBefore[run]! >= 0 ? 1 : 0);
      waiting[run] = waits;
      if (waits === 0) order[ready++] = run;
    }
    let makespan = 0;
    for (let i = 0; i < ready; i++) {
      const run = order[i]!;
      let from = release[run]!;
      const previous = before[run]!;
      if (previous >= 0) {
        const off = head[previous]! + minutes[previous]! + lag[run]!;
        if (off > from) from = off;
      }
      const machinePrevious = machineBefore[run]!;
      if (machinePrevious >= 0) {
        const free = head[machinePrevious]! + minutes[machinePrevious]!;
        if (free > from) from = free;
      }
      head[run] = from;
      if (from + minutes[run]! > makespan) makespan = from + minutes[run]!;
      const next = after[run]!;
      if (next >= 0 && --waiting[next]! === 0) order[ready++] = next;
      const machineNext = machineAfter[run]!;
      if (machineNext >= 0 && --waiting[machineNext]! === 0) order[ready++] = machineNext;
    }
    if (ready < count) return false;
    for (let i = count - 1; i >= 0; i--) {
      const run = order[i]!;
      let out = 0;
      const next = after[run]!;
      if (next >= 0) out = lag[next]! + minutes[next]! + tail[next]!;
      const machineNext = machineAfter[run]!;
      if (machineNext >= 0) {
        const way = minutes[machineNext]! + tail[machineNext]!;
        if (way > out) out = way;
      }
      tail[run] = out;
    }
    this.makespan = makespan;
    return true;
  }
}
