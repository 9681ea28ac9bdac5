import { planSchema } from '../../core/shop';

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
  cost: {
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
  },
  bound: null,
  search: { seed: 1, steps: 0, seconds: 0, ending: 'limit' },
});
