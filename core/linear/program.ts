/**
 * A linear or integer program in flat arrays, columns and rows known by index:
 *
 *     best of      sum(cost[j] * x[j])
 *     subject to   rowLower[i] <= sum(a[i,j] * x[j]) <= rowUpper[i]
 *                  lower[j] <= x[j] <= upper[j],  x[j] whole where integer[j] is 1
 *
 * Bounds may be infinite; equal bounds make an equation or fix a column. Plain data, so it can be posted to a worker.
 */
export interface LinearProgram {
  readonly direction: Direction;
  readonly columns: number;
  readonly rows: number;
  readonly cost: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  readonly integer: Uint8Array;
  readonly rowLower: Float64Array;
  readonly rowUpper: Float64Array;
  /** Row `i` holds the terms `rowStart[i]` to `rowStart[i + 1]`, excluded; no column twice, no zero. */
  readonly rowStart: Int32Array;
  readonly termColumn: Int32Array;
  readonly termValue: Float64Array;
  /** For reading a program by eye only; what was not named is missing. */
  readonly columnNames: ReadonlyMap<number, string>;
  readonly rowNames: ReadonlyMap<number, string>;
}

export type Direction = 'minimise' | 'maximise';

/** Bounds of a column, by default any number from 0 up. */
export interface ColumnOptions {
  readonly lower?: number;
  readonly upper?: number;
  readonly integer?: boolean;
  readonly name?: string;
}
