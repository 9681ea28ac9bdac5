import type { PlanCost } from '../../core/shop';

/** Of a plan that nobody has priced yet. */
export const NO_COST: PlanCost = {
  lateness: 0,
  loaded: 0,
  tonight: 0,
  laterNights: 0,
  morning: 0,
  rounds: 0,
  extraHours: 0,
  flow: 0,
  moved: 0,
  finish: 0,
  total: 0,
};
