import type { MachineShop } from './machine-shop';

/**
 * When each run of an order begins and ends: as soon as its predecessor, its machine and some operator are free of the
 * runs before it in the order. `machinePrevious` is the run before it on its machine; `operatorPrevious` the run whose operator it
 * waited for; -1 if none.
 */
export class CrewTiming {
  readonly start: Int32Array;
  readonly end: Int32Array;
  readonly machinePrevious: Int32Array;
  readonly operatorPrevious: Int32Array;
  /** Longest way from a run's end to the end of all, by route, machine and operator; after {@link measureTails}. */
  readonly tail: Int32Array;
  private readonly machineFree: Int32Array;
  private readonly machineLast: Int32Array;
  private readonly operatorFree: Int32Array;
  private readonly operatorLast: Int32Array;

  constructor(private readonly shop: MachineShop) {
    const column = () => new Int32Array(shop.count);
    this.start = column();
    this.end = column();
    this.machinePrevious = column();
    this.operatorPrevious = column();
    this.tail = column();
    this.machineFree = new Int32Array(shop.machines);
    this.machineLast = new Int32Array(shop.machines);
    this.operatorFree = new Int32Array(shop.operators);
    this.operatorLast = new Int32Array(shop.operators);
  }

  /** Works out the times of the first `count` runs of the order; returns when the last of them ends. */
  build(order: Int32Array, option: Int32Array, count: number): number {
    const { shop, start, end, machineFree, machineLast, operatorFree, operatorLast } = this;
    machineFree.fill(0);
    machineLast.fill(-1);
    operatorFree.fill(0);
    operatorLast.fill(-1);
    let makespan = 0;
    for (let i = 0; i < count; i++) {
      const run = order[i]!;
      const machine = shop.optionMachine[option[run]!]!;
      const previous = shop.before[run]!;
      let from = shop.release[run]!;
      if (previous >= 0 && end[previous]! + shop.lag[run]! > from) from = end[previous]! + shop.lag[run]!;
      if (machineFree[machine]! > from) from = machineFree[machine]!;
      // Of those free by then the one free last: the others may be wanted sooner. Else the first to come free.
      let operator = 0;
      for (let p = 1; p < operatorFree.length; p++) {
        const [free, chosen] = [operatorFree[p]!, operatorFree[operator]!];
        if (chosen > from ? free < chosen : free <= from && free > chosen) operator = p;
      }
      const waits = operatorFree[operator]! > from;
      if (waits) from = operatorFree[operator]!;
      start[run] = from;
      const until = from + shop.optionCut[option[run]!]!;
      end[run] = until;
      this.machinePrevious[run] = machineLast[machine]!;
      this.operatorPrevious[run] = waits ? operatorLast[operator]! : -1;
      machineFree[machine] = until;
      machineLast[machine] = run;
      operatorFree[operator] = until;
      operatorLast[operator] = run;
      if (until > makespan) makespan = until;
    }
    return makespan;
  }

  /** Works out the tails of a whole order that has been built. */
  measureTails(order: Int32Array, option: Int32Array): void {
    const { shop, tail, machinePrevious, operatorPrevious } = this;
    tail.fill(0);
    for (let i = order.length - 1; i >= 0; i--) {
      const run = order[i]!;
      const way = shop.optionCut[option[run]!]! + tail[run]!;
      const previous = shop.before[run]!;
      if (previous >= 0 && way + shop.lag[run]! > tail[previous]!) tail[previous] = way + shop.lag[run]!;
      const machine = machinePrevious[run]!;
      if (machine >= 0 && way > tail[machine]!) tail[machine] = way;
      const operator = operatorPrevious[run]!;
      if (operator >= 0 && way > tail[operator]!) tail[operator] = way;
    }
  }
}
