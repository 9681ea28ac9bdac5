import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type LinearProgram, LinearProgramBuilder, solveLinear } from '../../../core/linear';
import { programOf, SOLVERS, solvablePrograms } from './programs';

const NEAR = 1e-6;

function activities(program: LinearProgram, values: Float64Array): number[] {
  return Array.from({ length: program.rows }, (_, i) => {
    let sum = 0;
    for (let t = program.rowStart[i]!; t < program.rowStart[i + 1]!; t++) {
      sum += program.termValue[t]! * values[program.termColumn[t]!]!;
    }
    return sum;
  });
}

function reducedCosts(program: LinearProgram, duals: Float64Array): Float64Array {
  const reduced = program.cost.slice();
  for (let i = 0; i < program.rows; i++) {
    for (let t = program.rowStart[i]!; t < program.rowStart[i + 1]!; t++) {
      reduced[program.termColumn[t]!]! -= duals[i]! * program.termValue[t]!;
    }
  }
  return reduced;
}

describe.each(SOLVERS)('duals of %s', (solver) => {
  it('price an hour of a scarce machine above zero where output is maximised, a spare one at zero', async () => {
    // Own instance: both parts need the mill, one the grinder; the grinder has hours left.
    const builder = new LinearProgramBuilder('maximise');
    const [insert, punch] = [builder.column(4), builder.column(6)];
    const [mill, grinder] = [builder.atMost(10), builder.atMost(100)];
    builder.term(mill, insert, 1);
    builder.term(mill, punch, 2);
    builder.term(grinder, punch, 1);
    const { duals } = await solveLinear(builder.build(), { solver });
    expect([...duals!]).toEqual([4, 0]);
  });

  it('price an hour of a scarce machine below zero where cost is minimised, a demand above', async () => {
    const builder = new LinearProgramBuilder('minimise');
    const [inside, outside] = [builder.column(2), builder.column(5)];
    const [hours, demand] = [builder.atMost(3), builder.atLeast(8)];
    builder.term(hours, inside, 1);
    builder.term(demand, inside, 1);
    builder.term(demand, outside, 1);
    const { objective, duals } = await solveLinear(builder.build(), { solver });
    expect(objective).toBeCloseTo(31, 9);
    expect(duals![0]).toBeCloseTo(-3, 9);
    expect(duals![1]).toBeCloseTo(5, 9);
  });

  it('say by how much the optimum rises when a limit is raised', async () => {
    const optimumWith = async (limit: number) => {
      const builder = new LinearProgramBuilder('minimise');
      const [x, y] = [builder.column(7, { upper: 4 }), builder.column(9)];
      const [sum, ratio] = [builder.row(limit, limit + 3), builder.equal(1)];
      builder.term(sum, x, 2);
      builder.term(sum, y, 3);
      builder.term(ratio, x, 1);
      builder.term(ratio, y, -1);
      return solveLinear(builder.build(), { solver });
    };
    const before = await optimumWith(10);
    const after = await optimumWith(10.25);
    expect(after.objective - before.objective).toBeCloseTo(before.duals![0]! * 0.25, 9);
    expect(before.duals![0]).toBeGreaterThan(1);
  });

  it('meet the optimum (strong duality) and vanish where there is room (complementary slackness)', async () => {
    await fc.assert(
      fc.asyncProperty(solvablePrograms, async (dense) => {
        const program = programOf(dense);
        const { ending, objective, values, duals } = await solveLinear(program, { solver });
        expect(ending).toBe('optimal');
        const reduced = reducedCosts(program, duals!);
        let dualObjective = 0;
        // Multiplied by this, prices read as if minimised: above zero at a lower limit, below zero at an upper one.
        const sense = program.direction === 'maximise' ? -1 : 1;
        const settle = (price: number, at: number, lower: number, upper: number) => {
          if (Math.abs(price) > NEAR) expect(at).toBeCloseTo(sense * price > 0 ? lower : upper, 5);
          dualObjective += price * at;
        };
        activities(program, values).forEach((activity, i) => {
          settle(duals![i]!, activity, program.rowLower[i]!, program.rowUpper[i]!);
        });
        values.forEach((value, j) => {
          settle(reduced[j]!, value, program.lower[j]!, program.upper[j]!);
        });
        expect(dualObjective).toBeCloseTo(objective, 5);
      }),
      { seed: 11, numRuns: 120 },
    );
  });
});
