export type { PlanningJob } from './messages';
export type { BuyJob, NightJob, NightStudied } from './night-messages';
export { createNights, type Nights, nightsBeside } from './nights';
export { createSolver, MOST_WORKERS, type Solver, workerBeside } from './solver';
export type { TrialJob, Tried, WhyJob } from './trial-messages';
export { createTrials, type Trials, trialsBeside } from './trials';
