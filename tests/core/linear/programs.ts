import fc from 'fast-check';
import { type LinearProgram, LinearProgramBuilder, type LinearSolver } from '../../../core/linear';

export const SOLVERS: readonly LinearSolver[] = ['javascript-lp-solver', 'highs'];

export interface Column {
  readonly cost: number;
  readonly lower: number;
  readonly upper: number;
  readonly integer: boolean;
}

export interface Row {
  readonly lower: number;
  readonly upper: number;
  readonly terms: readonly number[];
}

/** A program written out whole, to change it harmlessly and to count its points one by one. */
export interface Dense {
  readonly direction: 'minimise' | 'maximise';
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
}

export function programOf({ direction, columns, rows }: Dense): LinearProgram {
  const builder = new LinearProgramBuilder(direction);
  for (const { cost, ...options } of columns) builder.column(cost, options);
  for (const { lower, upper, terms } of rows) {
    const row = builder.row(lower, upper);
    terms.forEach((coefficient, column) => {
      builder.term(row, column, coefficient);
    });
  }
  return builder.build();
}

const bounds = fc
  .tuple(
    fc.integer({ min: -6, max: 6 }),
    fc.integer({ min: 0, max: 9 }),
    fc.constantFrom('range', 'low', 'high', 'free'),
  )
  .map(([lower, width, kind]) => ({
    lower: kind === 'high' || kind === 'free' ? -Infinity : lower,
    upper: kind === 'low' || kind === 'free' ? Infinity : lower + width,
  }));

const rowBounds = fc
  .tuple(
    fc.integer({ min: -15, max: 25 }),
    fc.integer({ min: 0, max: 20 }),
    fc.constantFrom('range', 'low', 'high', 'equal'),
  )
  .map(([lower, width, kind]) => ({
    lower: kind === 'high' ? -Infinity : lower,
    upper: kind === 'low' ? Infinity : kind === 'equal' ? lower : lower + width,
  }));

function denseOf(columnBounds: typeof bounds, integer: boolean): fc.Arbitrary<Dense> {
  const size = fc.record({ columns: fc.integer({ min: 1, max: 7 }), rows: fc.integer({ min: 0, max: 6 }) });
  return size.chain(({ columns, rows }) =>
    fc.record({
      direction: fc.constantFrom('minimise' as const, 'maximise' as const),
      columns: fc.array(
        fc.tuple(fc.integer({ min: -9, max: 9 }), columnBounds).map(([cost, range]) => ({ cost, ...range, integer })),
        { minLength: columns, maxLength: columns },
      ),
      rows: fc.array(
        fc
          .tuple(rowBounds, fc.array(fc.integer({ min: -5, max: 5 }), { minLength: columns, maxLength: columns }))
          .map(([range, terms]) => ({ ...range, terms })),
        { minLength: rows, maxLength: rows },
      ),
    }),
  );
}

/** Small linear programs of every kind: infeasible and unbounded ones, ranges, equations, free columns. */
export const linearPrograms = denseOf(bounds, false);

/** Linear programs with a best point: 0 is within every row and every column is limited. */
export const solvablePrograms = denseOf(
  fc
    .tuple(fc.integer({ min: 0, max: 6 }), fc.integer({ min: 0, max: 9 }))
    .map(([low, high]) => ({ lower: -low, upper: high })),
  false,
).map((dense) => ({
  ...dense,
  rows: dense.rows.map((row) => ({ ...row, lower: Math.min(row.lower, 0), upper: Math.max(row.upper, 0) })),
}));

/** Integer programs of at most four columns with at most five values each: all points can be counted. */
export const countablePrograms = denseOf(
  fc
    .tuple(fc.integer({ min: -4, max: 4 }), fc.integer({ min: 0, max: 4 }))
    .map(([lower, width]) => ({ lower, upper: lower + width })),
  true,
).map(({ columns, rows, ...rest }) => ({
  ...rest,
  columns: columns.slice(0, 4),
  rows: rows.map((row) => ({ ...row, terms: row.terms.slice(0, 4) })),
}));

/** The best objective by trying every point, or null if none is within the rows. */
export function bestByCounting({ direction, columns, rows }: Dense): number | null {
  let points: number[][] = [[]];
  for (const { lower, upper } of columns) {
    const values = Array.from({ length: upper - lower + 1 }, (_, step) => lower + step);
    points = points.flatMap((point) => values.map((value) => [...point, value]));
  }
  const dot = (a: readonly number[], b: readonly number[]) => a.reduce((sum, item, k) => sum + item * b[k]!, 0);
  const within = points.filter((point) =>
    rows.every(({ terms, lower, upper }) => dot(terms, point) >= lower && dot(terms, point) <= upper),
  );
  if (within.length === 0) return null;
  const costs = within.map((point) =>
    dot(
      columns.map((column) => column.cost),
      point,
    ),
  );
  return direction === 'maximise' ? Math.max(...costs) : Math.min(...costs);
}
