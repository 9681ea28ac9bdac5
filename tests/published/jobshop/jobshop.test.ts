import { beforeAll, describe, expect, it } from 'vitest';
import { planShop } from '../../../core/engine';
import { referee } from '../../../core/referee';
import type { Plan, Shop } from '../../../core/shop';
import { BOUNDS, shopOf } from './instances';

/** Changes tried in one plan. */
const STEPS = 30_000;

/** Seeds 1, 2 ... tried at most until the optimum is met. */
const TRIES = 5;

/** Where the best plan meets our own bound, so that we know it for optimal without being told. */
const PROVED = [
  ...['la01', 'la02', 'la05', 'la06', 'la07', 'la08', 'la09', 'la10', 'la11', 'la12', 'la13', 'la14', 'la15'],
  ...['kacem-k1', 'kacem-k2', 'kacem-k3', 'brandimarte-mk03', 'brandimarte-mk08'],
];

function makespan(plan: Plan): number {
  return Math.round(plan.cost.finish * 60);
}

async function plansOf(shop: Shop, enough: number): Promise<Plan[]> {
  const plans: Plan[] = [];
  for (let seed = 1; seed <= TRIES; seed++) {
    const plan = await planShop(shop, {
      at: shop.planFrom!,
      seconds: Number.POSITIVE_INFINITY,
      steps: STEPS,
      seed,
      clock: () => performance.now(),
    });
    plans.push(plan);
    if (makespan(plan) <= enough) break;
  }
  return plans;
}

describe.each(BOUNDS)('the job shop $name', ({ name, lower, upper }) => {
  const shop = shopOf(name);
  let plans: Plan[] = [];

  beforeAll(async () => {
    plans = await plansOf(shop, upper);
  }, 60_000);

  // Evidence from outside the project: published bounds.
  it(`is planned in ${upper}, the published optimum`, () => {
    expect(Math.min(...plans.map(makespan))).toBe(upper);
  });

  it(`is never planned in less than ${lower}, the published lower bound`, () => {
    for (const plan of plans) expect(makespan(plan)).toBeGreaterThanOrEqual(lower);
  });

  it('has no bound of ours above the published optimum', () => {
    for (const { bound } of plans) {
      expect(bound!.finish * 60).toBeLessThanOrEqual(upper + 1e-6);
      expect(bound!.total * 60).toBeLessThanOrEqual(upper + 1e-6);
    }
  });

  // Of our own making: what the plan says of itself.
  it('is called proved if and only if the plan meets our bound', () => {
    for (const { cost, bound, search } of plans) {
      expect(search.ending).toBe(cost.total <= bound!.total + 1e-6 ? 'proved' : 'limit');
    }
  });

  if (PROVED.includes(name)) {
    it('is proved to be planned optimally', () => {
      expect(plans.at(-1)?.search.ending).toBe('proved');
    });
  }

  it('has only legal plans, complete and costed by their makespan', () => {
    for (const plan of plans) {
      const verdict = referee(shop, plan);
      expect(verdict.breaches).toEqual([]);
      expect(plan.left).toEqual([]);
      expect(Math.max(...plan.runs.map((run) => run.end)) - plan.now).toBe(makespan(plan));
    }
  });
});
