export type { PlanningJob } from './messages';
export { createSolver, MOST_WORKERS, type Solver, workerBeside } from './solver';
