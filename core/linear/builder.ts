import { GrowableFloats } from './growable';
import type { ColumnOptions, Direction, LinearProgram } from './program';

/** A bound of an integer column this near a whole number is meant to be it. */
const WHOLE = 1e-9;

/**
 * Builds a {@link LinearProgram}. Columns and rows are numbered from 0 as they are added; terms may come in any order,
 * and terms of the same row and column add up.
 *
 *     const builder = new LinearProgramBuilder('maximise');
 *     const chairs = builder.column(30);
 *     const carpentry = builder.atMost(40);
 *     builder.term(carpentry, chairs, 1);
 *     const { values } = await solveLinear(builder.build());
 *
 * Throws a RangeError on what can only be a mistake: a cost, coefficient or bound that is no number, a column or row
 * that was never added. Bounds that cross are no mistake but an infeasible program.
 */
export class LinearProgramBuilder {
  readonly #direction: Direction;
  readonly #cost = new GrowableFloats();
  readonly #lower = new GrowableFloats();
  readonly #upper = new GrowableFloats();
  readonly #integer = new GrowableFloats();
  readonly #rowLower = new GrowableFloats();
  readonly #rowUpper = new GrowableFloats();
  readonly #termRow = new GrowableFloats();
  readonly #termColumn = new GrowableFloats();
  readonly #termValue = new GrowableFloats();
  readonly #columnNames = new Map<number, string>();
  readonly #rowNames = new Map<number, string>();

  constructor(direction: Direction) {
    this.#direction = direction;
  }

  get columns(): number {
    return this.#cost.length;
  }

  get rows(): number {
    return this.#rowLower.length;
  }

  /** A new column, by default any number from 0 up. Returns its index. */
  column(cost: number, { lower = 0, upper = Infinity, integer = false, name }: ColumnOptions = {}): number {
    const index = this.columns;
    if (!Number.isFinite(cost)) throw new RangeError(`column ${name ?? index}: cost ${cost} is no number`);
    refuseBounds(lower, upper, () => `column ${name ?? index}`);
    this.#cost.push(cost);
    this.#lower.push(integer ? Math.ceil(lower - WHOLE) : lower);
    this.#upper.push(integer ? Math.floor(upper + WHOLE) : upper);
    this.#integer.push(integer ? 1 : 0);
    if (name !== undefined) this.#columnNames.set(index, name);
    return index;
  }

  /** A new row, its terms to sum to `lower` to `upper`. Returns its index. */
  row(lower: number, upper: number, name?: string): number {
    const index = this.rows;
    refuseBounds(lower, upper, () => `row ${name ?? index}`);
    this.#rowLower.push(lower);
    this.#rowUpper.push(upper);
    if (name !== undefined) this.#rowNames.set(index, name);
    return index;
  }

  atMost(limit: number, name?: string): number {
    return this.row(-Infinity, limit, name);
  }

  atLeast(limit: number, name?: string): number {
    return this.row(limit, Infinity, name);
  }

  equal(value: number, name?: string): number {
    return this.row(value, value, name);
  }

  /** Adds `coefficient` times the column to the row. */
  term(row: number, column: number, coefficient: number): void {
    if (!(row >= 0 && row < this.rows)) throw new RangeError(`there is no row ${row}`);
    if (!(column >= 0 && column < this.columns)) throw new RangeError(`there is no column ${column}`);
    if (!Number.isFinite(coefficient)) {
      throw new RangeError(`row ${row}, column ${column}: coefficient ${coefficient} is no number`);
    }
    this.#termRow.push(row);
    this.#termColumn.push(column);
    this.#termValue.push(coefficient);
  }

  build(): LinearProgram {
    return {
      direction: this.#direction,
      columns: this.columns,
      rows: this.rows,
      cost: this.#cost.toArray(),
      lower: this.#lower.toArray(),
      upper: this.#upper.toArray(),
      integer: Uint8Array.from(this.#integer.toArray()),
      rowLower: this.#rowLower.toArray(),
      rowUpper: this.#rowUpper.toArray(),
      ...byRow(this.rows, this.columns, this.#termRow.toArray(), this.#termColumn.toArray(), this.#termValue.toArray()),
      columnNames: new Map(this.#columnNames),
      rowNames: new Map(this.#rowNames),
    };
  }
}

function refuseBounds(lower: number, upper: number, place: () => string): void {
  const sound = lower < Infinity && upper > -Infinity;
  if (!sound) throw new RangeError(`${place()}: ${lower} to ${upper} are no bounds`);
}

/** The terms sorted by row (a counting sort), those of one row and column joined, zeros left out. */
function byRow(rows: number, columns: number, row: Float64Array, column: Float64Array, value: Float64Array) {
  const from = new Int32Array(rows + 1);
  for (let t = 0; t < row.length; t++) from[row[t]! + 1]! += 1;
  for (let i = 0; i < rows; i++) from[i + 1]! += from[i]!;
  const order = new Int32Array(row.length);
  const next = from.slice();
  for (let t = 0; t < row.length; t++) {
    const i = row[t]!;
    order[next[i]!] = t;
    next[i]! += 1;
  }

  const rowStart = new Int32Array(rows + 1);
  const termColumn = new Int32Array(row.length);
  const termValue = new Float64Array(row.length);
  const seenIn = new Int32Array(columns).fill(-1);
  const place = new Int32Array(columns);
  let length = 0;
  for (let i = 0; i < rows; i++) {
    const start = length;
    for (let o = from[i]!; o < from[i + 1]!; o++) {
      const t = order[o]!;
      const j = column[t]!;
      if (seenIn[j] !== i) {
        seenIn[j] = i;
        place[j] = length;
        termColumn[length] = j;
        length += 1;
      }
      termValue[place[j]!]! += value[t]!;
    }
    length = withoutZeros(termColumn, termValue, start, length);
    rowStart[i + 1] = length;
  }
  return { rowStart, termColumn: termColumn.slice(0, length), termValue: termValue.slice(0, length) };
}

function withoutZeros(termColumn: Int32Array, termValue: Float64Array, start: number, end: number): number {
  let kept = start;
  for (let t = start; t < end; t++) {
    if (termValue[t] === 0) continue;
    termColumn[kept] = termColumn[t]!;
    termValue[kept] = termValue[t]!;
    kept += 1;
  }
  termValue.fill(0, kept, end);
  return kept;
}
