export { PlanScreen } from './plan-screen';
export { createPlanStore, type PlanStore, SEED } from './plan-store';
export { useNow } from './use-now';
export { usePlan } from './use-plan';
