/**
 * - `optimal`: proved best, for an integer program within the gap asked for.
 * - `infeasible`: nothing satisfies all rows and bounds.
 * - `unbounded`: points as good as one likes satisfy them.
 * - `limit`: the time was up, or the search could not go on, before any of these was proved.
 */
export type LinearEnding = 'optimal' | 'infeasible' | 'unbounded' | 'limit';

export type LinearSolver = 'javascript-lp-solver' | 'highs';

export interface LinearSolution {
  readonly ending: LinearEnding;
  /** Of `values`; NaN where there are none. */
  readonly objective: number;
  /**
   * No point is better. At an optimum the objective itself, or what an integer search within a gap has proved. With
   * nothing proved it is infinite: Infinity where maximised, -Infinity where minimised. NaN where infeasible.
   */
  readonly bound: number;
  /**
   * By column, within every row and bound, whole where they must be. Always there at an optimum; at a limit if the
   * search had found any such point; otherwise empty.
   */
  readonly values: Float64Array;
  /**
   * By row: by how much the optimum rises per unit by which the row's limits are raised, in the objective's own unit,
   * maximised or minimised. So one more hour of a scarce machine has a dual above zero where output is maximised and
   * below zero where cost is minimised; a row with room left has zero. Where several duals fit an optimum (a
   * degenerate one) each is right in one direction only. Null for integer programs and without an optimum.
   */
  readonly duals: Float64Array | null;
  /** Who found this answer. */
  readonly solver: LinearSolver;
}

export interface LinearOptions {
  /** Default `auto`: javascript-lp-solver while the program is small, HiGHS beyond and wherever there is doubt. */
  readonly solver?: LinearSolver | 'auto';
  /** Wall time, default none. Heeded by HiGHS; what javascript-lp-solver may do is bounded in steps instead. */
  readonly seconds?: number;
  /** For integer programs: how far from the best possible, relative to the objective, is near enough. Default 0. */
  readonly gap?: number;
}
