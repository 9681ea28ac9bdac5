import { describe, expect, it } from 'vitest';
import { LinearProgramBuilder, type LinearSolution, solveLinear } from '../../../core/linear';
import { SOLVERS } from './programs';

describe.each(SOLVERS)('with %s', (solver) => {
  const solve = async (
    direction: 'minimise' | 'maximise',
    fill: (builder: LinearProgramBuilder) => void,
  ): Promise<LinearSolution> => {
    const builder = new LinearProgramBuilder(direction);
    fill(builder);
    const solution = await solveLinear(builder.build(), { solver });
    expect(solution.solver).toBe(solver);
    return solution;
  };

  it('says that rows which exclude each other are infeasible', async () => {
    const solution = await solve('maximise', (b) => {
      const x = b.column(1);
      b.term(b.atMost(3), x, 1);
      b.term(b.atLeast(4), x, 1);
    });
    expect(solution).toMatchObject({ ending: 'infeasible', objective: Number.NaN, bound: Number.NaN, duals: null });
    expect(solution.values).toHaveLength(0);
  });

  it('says that bounds which cross are infeasible, in a column and in a row', async () => {
    const column = await solve('maximise', (b) => {
      b.column(1, { lower: 3, upper: 2 });
    });
    const row = await solve('maximise', (b) => {
      b.term(b.row(4, 3), b.column(1), 1);
    });
    const whole = await solve('minimise', (b) => {
      b.column(1, { lower: 0.2, upper: 0.8, integer: true });
    });
    expect([column.ending, row.ending, whole.ending]).toEqual(['infeasible', 'infeasible', 'infeasible']);
  });

  it('says that an objective without limit is unbounded, and that nothing is proved of it', async () => {
    const up = await solve('maximise', (b) => {
      b.term(b.atLeast(2), b.column(1), 1);
    });
    const down = await solve('minimise', (b) => {
      b.column(1, { lower: -Infinity, upper: 4 });
    });
    expect(up).toMatchObject({ ending: 'unbounded', bound: Infinity, duals: null });
    expect(down).toMatchObject({ ending: 'unbounded', bound: -Infinity, duals: null });
  });

  it('tells an unbounded integer program from an infeasible one', async () => {
    const unbounded = await solve('minimise', (b) => {
      const [x, y] = [b.column(-1, { integer: true }), b.column(1)];
      const row = b.atLeast(0);
      b.term(row, x, 1);
      b.term(row, y, 1);
    });
    const infeasible = await solve('minimise', (b) => {
      const [x, y] = [b.column(0, { integer: true, upper: 5 }), b.column(1, { integer: true, upper: 5 })];
      const odd = b.equal(3);
      b.term(odd, x, 2);
      b.term(odd, y, 4);
    });
    expect([unbounded.ending, infeasible.ending]).toEqual(['unbounded', 'infeasible']);
  });

  it('lets a free column go below zero', async () => {
    const solution = await solve('minimise', (b) => {
      b.term(b.atLeast(-5), b.column(1, { lower: -Infinity }), 2);
    });
    expect(solution.values[0]).toBeCloseTo(-2.5, 9);
    expect(solution.duals![0]).toBeCloseTo(0.5, 9);
  });

  it('keeps a column between negative bounds', async () => {
    const up = await solve('maximise', (b) => {
      b.column(3, { lower: -7, upper: -2 });
    });
    const down = await solve('minimise', (b) => {
      b.column(3, { lower: -7, upper: -2 });
    });
    expect([up.objective, down.objective]).toEqual([-6, -21]);
  });

  it('keeps a row within its range from both sides', async () => {
    const within = (direction: 'minimise' | 'maximise') =>
      solve(direction, (b) => {
        const row = b.row(2, 9);
        b.term(row, b.column(1), 1);
        b.term(row, b.column(3), 1);
      });
    expect((await within('maximise')).objective).toBeCloseTo(27, 9);
    expect((await within('minimise')).objective).toBeCloseTo(2, 9);
  });

  it('counts a fixed column in its rows', async () => {
    const solution = await solve('maximise', (b) => {
      const [x, y] = [b.column(3, { lower: 2, upper: 2 }), b.column(5)];
      const row = b.atMost(18);
      b.term(row, x, 3);
      b.term(row, y, 2);
    });
    expect([...solution.values]).toEqual([2, 6]);
    expect(solution.objective).toBe(36);
  });

  it('solves programs without rows and without columns', async () => {
    const noRows = await solve('maximise', (b) => {
      b.column(2, { upper: 3 });
      b.column(-1);
    });
    const nothing = await solve('minimise', () => {});
    const emptyRow = await solve('minimise', (b) => {
      b.atMost(3);
    });
    const brokenRow = await solve('minimise', (b) => {
      b.atLeast(3);
    });
    expect(noRows).toMatchObject({ ending: 'optimal', objective: 6 });
    expect(nothing).toMatchObject({ ending: 'optimal', objective: 0 });
    expect(emptyRow).toMatchObject({ ending: 'optimal', objective: 0, duals: new Float64Array([0]) });
    expect(brokenRow.ending).toBe('infeasible');
  });

  it('ignores a row without limits', async () => {
    const solution = await solve('maximise', (b) => {
      b.term(b.row(-Infinity, Infinity), b.column(1, { upper: 9 }), 1);
    });
    expect(solution.objective).toBe(9);
    expect(solution.duals![0]).toBe(0);
  });

  it('gives whole numbers for integer columns, and no duals', async () => {
    const solution = await solve('maximise', (b) => {
      const row = b.atMost(10);
      b.term(row, b.column(5, { integer: true }), 3);
      b.term(row, b.column(4, { integer: true, upper: 1 }), 3.5);
    });
    // Own instance: 3 of the first (15) beat 2 and 1 (14); without whole numbers 10/3 of the first.
    expect([...solution.values]).toEqual([3, 0]);
    expect(solution.duals).toBeNull();
  });
});
