export { LinearProgramBuilder } from './builder';
export type { ColumnOptions, Direction, LinearProgram } from './program';
export type { LinearEnding, LinearOptions, LinearSolution, LinearSolver } from './solution';
export { solveLinear } from './solve';
