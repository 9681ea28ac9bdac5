import { objectiveOf } from './certificate';
import type { LinearProgram } from './program';
import type { LinearSolution, LinearSolver } from './solution';

/** The bound with nothing proved. */
export function noBound(program: LinearProgram): number {
  return program.direction === 'maximise' ? Infinity : -Infinity;
}

/** An ending without a point. */
export function ended(
  program: LinearProgram,
  ending: 'infeasible' | 'unbounded' | 'limit',
  solver: LinearSolver,
): LinearSolution {
  const bound = ending === 'infeasible' ? Number.NaN : noBound(program);
  return { ending, objective: Number.NaN, bound, values: new Float64Array(0), duals: null, solver };
}

/** Whole numbers where they are due, and no negative zero; the objective is recomputed from what is given out. */
export function tidied(program: LinearProgram, raw: Float64Array): { values: Float64Array; objective: number } {
  const values = raw.map((value, j) => (program.integer[j] === 1 ? Math.round(value) : value) + 0);
  return { values, objective: objectiveOf(program, values) };
}
