import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { solveLinear } from '../../../core/linear';
import { solveByTableau } from '../../../core/linear/tableau';
import { bestByCounting, countablePrograms, type Dense, linearPrograms, programOf, SOLVERS } from './programs';

function expectSame(a: number, b: number): void {
  expect(Math.abs(a - b)).toBeLessThanOrEqual(1e-6 * (1 + Math.abs(b)));
}

const optimum = async (dense: Dense) => {
  const { ending, objective } = await solveLinear(programOf(dense), { solver: 'highs' });
  return { ending, objective };
};

describe('the two solvers', () => {
  it('come to the same end and the same optimum on linear programs of every kind', async () => {
    const met = new Set<string>();
    await fc.assert(
      fc.asyncProperty(linearPrograms, async (dense) => {
        const program = programOf(dense);
        const tableau = solveByTableau(program, 1e9);
        const highs = await solveLinear(program, { solver: 'highs' });
        expect(tableau?.ending).toBe(highs.ending);
        met.add(highs.ending);
        if (highs.ending === 'optimal') expectSame(tableau!.objective, highs.objective);
      }),
      { seed: 23, numRuns: 400 },
    );
    expect([...met].sort()).toEqual(['infeasible', 'optimal', 'unbounded']);
  });

  it.each(SOLVERS)('find the best of all points of small integer programs: %s', async (solver) => {
    const met = new Set<string>();
    await fc.assert(
      fc.asyncProperty(countablePrograms, async (dense) => {
        const best = bestByCounting(dense);
        const solution = await solveLinear(programOf(dense), { solver });
        expect(solution.ending).toBe(best === null ? 'infeasible' : 'optimal');
        met.add(solution.ending);
        if (best !== null) expectSame(solution.objective, best);
      }),
      { seed: 5, numRuns: 150 },
    );
    expect(met.size).toBe(2);
  });
});

describe('a harmless change keeps the optimum', () => {
  const unchangedBy = (change: (dense: Dense, factor: number) => Dense, objectiveFactor = (_: number) => 1) =>
    fc.assert(
      fc.asyncProperty(linearPrograms, fc.constantFrom(0.25, 3, 100), async (dense, factor) => {
        const before = await optimum(dense);
        const after = await optimum(change(dense, factor));
        expect(after.ending).toBe(before.ending);
        if (before.ending === 'optimal') expectSame(after.objective, objectiveFactor(factor) * before.objective);
      }),
      { seed: 31, numRuns: 100 },
    );

  it('of the order of rows', () => unchangedBy((dense) => ({ ...dense, rows: dense.rows.toReversed() })));

  it('of the order of columns', () =>
    unchangedBy((dense) => ({
      ...dense,
      columns: dense.columns.toReversed(),
      rows: dense.rows.map((row) => ({ ...row, terms: row.terms.toReversed() })),
    })));

  it('of the unit of a row', () =>
    unchangedBy((dense, factor) => ({
      ...dense,
      rows: dense.rows.map(({ lower, upper, terms }) => ({
        lower: lower * factor,
        upper: upper * factor,
        terms: terms.map((term) => term * factor),
      })),
    })));

  it('of the unit of the objective', () =>
    unchangedBy(
      (dense, factor) => ({
        ...dense,
        columns: dense.columns.map((column) => ({ ...column, cost: column.cost * factor })),
      }),
      (factor) => factor,
    ));

  it('of maximising into minimising the opposite', () =>
    unchangedBy(
      (dense) => ({
        ...dense,
        direction: dense.direction === 'maximise' ? 'minimise' : 'maximise',
        columns: dense.columns.map((column) => ({ ...column, cost: -column.cost })),
      }),
      () => -1,
    ));
});
