/** A search over sequences of a machine shop, given as orders of all runs that respect the routes. */
export interface SequenceSearch {
  /** Best makespan since the beginning, and the order and options that have it. */
  readonly best: number;
  readonly bestOrder: Int32Array;
  readonly bestOption: Int32Array;
  /** Begins anew at a sequence. */
  begin(order: Int32Array, option: Int32Array): void;
  /** Makes one move; false if there is none to make. */
  move(): boolean;
}
