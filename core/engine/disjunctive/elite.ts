/** A sequence of all machines, as an order of the runs that respects the routes, with its makespan. */
export interface Elite {
  readonly order: Int32Array;
  readonly option: Int32Array;
  readonly makespan: number;
}
