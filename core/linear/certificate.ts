import type { LinearProgram } from './program';

/** Relative to the size of what is compared. Solvers work to 1e-7 to 1e-8; a wrong answer is wrong by far more. */
export const TOLERANCE = 1e-6;

export function objectiveOf(program: LinearProgram, values: Float64Array): number {
  let sum = 0;
  for (let j = 0; j < program.columns; j++) sum += program.cost[j]! * values[j]!;
  return sum;
}

/** True if the point lies within every row and bound and is whole where it must be. */
export function isFeasible(program: LinearProgram, values: Float64Array): boolean {
  for (let j = 0; j < program.columns; j++) {
    const x = values[j]!;
    const room = TOLERANCE * (1 + Math.abs(x));
    if (!(x >= program.lower[j]! - room && x <= program.upper[j]! + room)) return false;
    if (program.integer[j] === 1 && Math.abs(x - Math.round(x)) > TOLERANCE) return false;
  }
  for (let i = 0; i < program.rows; i++) {
    let activity = 0;
    let size = 1;
    for (let t = program.rowStart[i]!; t < program.rowStart[i + 1]!; t++) {
      const part = program.termValue[t]! * values[program.termColumn[t]!]!;
      activity += part;
      size = Math.max(size, Math.abs(part));
    }
    const room = TOLERANCE * size;
    if (!(activity >= program.rowLower[i]! - room && activity <= program.rowUpper[i]! + room)) return false;
  }
  return true;
}

/**
 * What the row duals prove: no point of the program, whole or not, is better. By weak duality: whatever the duals are,
 *
 *     cost x = (cost - duals A) x + duals (A x),
 *
 * and each factor of the right side lies within its own bounds. Infinite in the good direction if they prove nothing.
 */
export function boundOf(program: LinearProgram, duals: Float64Array): number {
  const best = program.direction === 'maximise' ? Math.max : Math.min;
  const reduced = program.cost.slice();
  const size = program.cost.map((cost) => 1 + Math.abs(cost));
  let bound = 0;
  const add = (price: number, scale: number, lower: number, upper: number): void => {
    // A price this near zero is zero but for rounding; against an infinite bound it would prove nothing.
    if (Math.abs(price) <= TOLERANCE * 1e-2 * scale && !(lower > -Infinity && upper < Infinity)) return;
    if (price !== 0) bound += best(price * lower, price * upper);
  };
  for (let i = 0; i < program.rows; i++) {
    const dual = duals[i]!;
    add(dual, 1, program.rowLower[i]!, program.rowUpper[i]!);
    for (let t = program.rowStart[i]!; t < program.rowStart[i + 1]!; t++) {
      const j = program.termColumn[t]!;
      const part = dual * program.termValue[t]!;
      reduced[j]! -= part;
      size[j] = Math.max(size[j]!, Math.abs(part));
    }
  }
  for (let j = 0; j < program.columns; j++) add(reduced[j]!, size[j]!, program.lower[j]!, program.upper[j]!);
  return bound;
}

/** True if the duals prove that the objective is the best there is. */
export function isProvedBest(program: LinearProgram, objective: number, duals: Float64Array): boolean {
  return Math.abs(boundOf(program, duals) - objective) <= TOLERANCE * (1 + Math.abs(objective));
}
