export { PlanScreen } from './plan-screen';
export { createPlanStore, type PlanStore } from './plan-store';
export { usePlan } from './use-plan';
