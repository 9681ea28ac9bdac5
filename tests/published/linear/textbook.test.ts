import { describe, expect, it } from 'vitest';
import { type LinearProgram, LinearProgramBuilder, solveLinear } from '../../../core/linear';
import { SOLVERS } from '../../core/linear/programs';

interface Case {
  readonly title: string;
  readonly program: LinearProgram;
  readonly optimum: number;
  readonly values?: readonly number[];
  readonly duals?: readonly number[];
}

type RowText = readonly [terms: readonly number[], relation: '<=' | '=' | '>=', limit: number];

function program(
  direction: 'minimise' | 'maximise',
  cost: readonly number[],
  rows: readonly RowText[],
  options: { readonly upper?: readonly number[]; readonly integer?: boolean } = {},
): LinearProgram {
  const builder = new LinearProgramBuilder(direction);
  cost.forEach((c, j) => {
    builder.column(c, { integer: options.integer ?? false, upper: options.upper?.[j] ?? Infinity });
  });
  for (const [terms, relation, limit] of rows) {
    const row =
      relation === '<=' ? builder.atMost(limit) : relation === '>=' ? builder.atLeast(limit) : builder.equal(limit);
    terms.forEach((term, j) => {
      builder.term(row, j, term);
    });
  }
  return builder.build();
}

/** From each source (rows, at most) to each sink (columns, at least). */
function transport(supply: readonly number[], demand: readonly number[], cost: readonly (readonly number[])[]) {
  const builder = new LinearProgramBuilder('minimise');
  const from = supply.map((s) => builder.atMost(s));
  const to = demand.map((d) => builder.atLeast(d));
  cost.forEach((line, i) => {
    line.forEach((c, j) => {
      const column = builder.column(c);
      builder.term(from[i]!, column, 1);
      builder.term(to[j]!, column, 1);
    });
  });
  return builder.build();
}

/** Every row and every column of the square exactly once. A linear program: its corners are whole (Birkhoff 1946). */
function assignment(cost: readonly (readonly number[])[]) {
  const builder = new LinearProgramBuilder('minimise');
  const rows = cost.map(() => builder.equal(1));
  const columns = cost.map(() => builder.equal(1));
  cost.forEach((line, i) => {
    line.forEach((c, j) => {
      const column = builder.column(c);
      builder.term(rows[i]!, column, 1);
      builder.term(columns[j]!, column, 1);
    });
  });
  return builder.build();
}

const CASES: readonly Case[] = [
  {
    // Hillier & Lieberman, Introduction to Operations Research, ch. 3 (optimum) and ch. 4 (shadow prices); from memory.
    title: 'the glass company: 36 at (2, 6), shadow prices 0, 1.5 and 1',
    program: program(
      'maximise',
      [3, 5],
      [
        [[1, 0], '<=', 4],
        [[0, 2], '<=', 12],
        [[3, 2], '<=', 18],
      ],
    ),
    optimum: 36,
    values: [2, 6],
    duals: [0, 1.5, 1],
  },
  {
    // Hillier & Lieberman, ch. 3, with a row of each kind; from memory.
    title: 'the radiation therapy: 5.25 at (7.5, 4.5)',
    program: program(
      'minimise',
      [0.4, 0.5],
      [
        [[0.3, 0.1], '<=', 2.7],
        [[0.5, 0.5], '=', 6],
        [[0.6, 0.4], '>=', 6],
      ],
    ),
    optimum: 5.25,
    values: [7.5, 4.5],
  },
  {
    // Chvatal, Linear Programming (1983), ch. 1; from memory.
    title: "Polly's diet: 92.5 with 4 oatmeal, 4.5 milk and 2 pie",
    program: program(
      'minimise',
      [3, 24, 13, 9, 20, 19],
      [
        [[110, 205, 160, 160, 420, 260], '>=', 2000],
        [[4, 32, 13, 8, 4, 14], '>=', 55],
        [[2, 12, 54, 285, 22, 80], '>=', 800],
      ],
      { upper: [4, 3, 2, 8, 2, 2] },
    ),
    optimum: 92.5,
    values: [4, 0, 0, 4.5, 2, 0],
  },
  {
    // Dantzig, Linear Programming and Extensions (1963), ch. 3-3: two canneries, three markets, freight 90 per case
    // and thousand miles; from memory.
    title: "Dantzig's canneries: freight of 153.675",
    program: transport(
      [350, 600],
      [325, 300, 275],
      [
        [0.225, 0.153, 0.162],
        [0.225, 0.162, 0.126],
      ],
    ),
    optimum: 153.675,
  },
  {
    // Beale, Cycling in the dual simplex algorithm, Naval Res. Logist. Quart. 2 (1955) 269-275; from memory. The first
    // rule of the simplex method circles here for ever.
    title: "Beale's circle: -1.25 at (1, 0, 1, 0)",
    program: program(
      'minimise',
      [-0.75, 20, -0.5, 6],
      [
        [[0.25, -8, -1, 9], '<=', 0],
        [[0.5, -12, -0.5, 3], '<=', 0],
        [[0, 0, 1, 0], '<=', 1],
      ],
    ),
    optimum: -1.25,
    values: [1, 0, 1, 0],
  },
  {
    // Klee & Minty (1972) in Chvatal's form, ch. 4, n = 5: optimum 100^(n-1); from memory.
    title: 'the Klee-Minty cube in five dimensions: 100 000 000',
    program: program(
      'maximise',
      [10000, 1000, 100, 10, 1],
      [0, 1, 2, 3, 4].map(
        (i): RowText => [[0, 1, 2, 3, 4].map((j) => (j < i ? 2 * 10 ** (i - j) : Number(j === i))), '<=', 100 ** i],
      ),
    ),
    optimum: 1e8,
  },
  {
    // README of javascript-lp-solver 1.0.3 (read).
    title: 'the Berlin airlift: 1 080 000 with 24 British and 20 American planes',
    program: program(
      'maximise',
      [20000, 30000],
      [
        [[1, 1], '<=', 44],
        [[8, 16], '<=', 512],
        [[5000, 9000], '<=', 300000],
      ],
    ),
    optimum: 1_080_000,
    values: [24, 20],
  },
  {
    // README of javascript-lp-solver 0.4; from memory. That of 1.0.3 lost the storage row (30, 50, 400) and kept the
    // answer; without it the best is 19 200 with 4 and 9.
    title: 'tables and dressers in whole pieces: 14 400 with 8 and 3',
    program: program(
      'maximise',
      [1200, 1600],
      [
        [[30, 20], '<=', 300],
        [[5, 10], '<=', 110],
        [[30, 50], '<=', 400],
      ],
      { integer: true },
    ),
    optimum: 14_400,
    values: [8, 3],
  },
  {
    // README of the highs package 1.15.3 (read).
    title: 'chairs and tables in whole pieces: 1100 with 20 and 10',
    program: program(
      'maximise',
      [30, 50],
      [
        [[1, 2], '<=', 40],
        [[2, 1], '<=', 50],
      ],
      { integer: true },
    ),
    optimum: 1100,
    values: [20, 10],
  },
  {
    // Data set P01 of the KNAPSACK_01 collection of Florida State University; from memory.
    title: 'a knapsack of ten: 309',
    program: program(
      'maximise',
      [92, 57, 49, 68, 60, 43, 67, 84, 87, 72],
      [[[23, 31, 29, 44, 53, 38, 63, 85, 89, 82], '<=', 165]],
      { upper: Array.from({ length: 10 }, () => 1), integer: true },
    ),
    optimum: 309,
    values: [1, 1, 1, 1, 0, 1, 0, 0, 0, 0],
  },
  {
    // Documentation of SciPy, linear_sum_assignment, first example; from memory.
    title: 'an assignment of three: 5',
    program: assignment([
      [4, 1, 3],
      [2, 0, 5],
      [3, 2, 2],
    ]),
    optimum: 5,
    values: [0, 1, 0, 1, 0, 0, 0, 0, 1],
  },
];

describe.each(SOLVERS)('%s reaches the published optimum of', (solver) => {
  it.each(CASES)('$title', async ({ program, optimum, values, duals }) => {
    const solution = await solveLinear(program, { solver });
    expect(solution.ending).toBe('optimal');
    // No silent help from the other solver.
    expect(solution.solver).toBe(solver);
    expect(solution.objective).toBeCloseTo(optimum, 6);
    expect(solution.bound).toBeCloseTo(optimum, 6);
    values?.forEach((value, j) => {
      expect(solution.values[j]).toBeCloseTo(value, 6);
    });
    duals?.forEach((dual, i) => {
      expect(solution.duals![i]).toBeCloseTo(dual, 6);
    });
  });
});
