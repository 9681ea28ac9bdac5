import { planSchema } from '../../core/shop';
import { NO_COST } from './no-cost';

/** A plan of nothing, for those who do not judge plans. */
export const emptyPlan = planSchema.parse({
  format: 'nightload-plan',
  version: 1,
  shop: 'Small shop',
  clock: { zone: 'Europe/Berlin', origin: 0 },
  now: 0,
  horizon: 1440,
  runs: [],
  left: [],
  conflicts: [],
  cost: NO_COST,
  bound: null,
  search: { seed: 1, steps: 0, seconds: 0, ending: 'limit' },
});
