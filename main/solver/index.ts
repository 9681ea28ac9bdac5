export type { PlanningJob } from './messages';
export { createSolver, type Solver, workerBeside } from './solver';
