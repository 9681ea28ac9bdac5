import { describe, expect, it } from 'vitest';
import { planShop } from '../../../core/engine';
import { referee } from '../../../core/referee';
import type { Shop } from '../../../core/shop';
import { shopOf } from '../jobshop/instances';
import table from './bounds.json';

/**
 * Job shops in which every operation needs one of a few operators throughout: JSO(n,p) of Agnetis, Flamini, Nicosia &
 * Pacifici, J. Scheduling 14(3), 2011. The instances are the classical ones; the optima are those that two solvers proved
 * in the result tables of ScheduleOpt/optalcp-benchmarks (MIT, runs of 2023): public tables, not a refereed paper.
 */
async function best(shop: Shop, seeds: number, enough: number, steps: number): Promise<number> {
  let makespan = Number.POSITIVE_INFINITY;
  for (let seed = 1; seed <= seeds && makespan > enough; seed++) {
    const plan = await planShop(shop, {
      at: shop.planFrom!,
      seconds: Number.POSITIVE_INFINITY,
      steps,
      seed,
      clock: () => performance.now(),
    });
    expect(referee(shop, plan).breaches).toEqual([]);
    expect(plan.bound!.finish * 60).toBeLessThanOrEqual(enough + 1e-6);
    makespan = Math.min(makespan, Math.round(plan.cost.finish * 60));
  }
  return makespan;
}

describe('a job shop with few operators', () => {
  it.each(table.reached)(
    '$name with $operators is planned in $optimum, the proved optimum, and not in less',
    async (row) => {
      expect(await best(shopOf(row.name, row.operators), 5, row.optimum, 40_000)).toBe(row.optimum);
    },
  );

  it.each(table.near)('$name with $operators is planned within 1 % of $optimum, the proved optimum', async (row) => {
    const makespan = await best(shopOf(row.name, row.operators), 1, row.optimum, 120_000);
    expect(makespan).toBeGreaterThanOrEqual(row.optimum);
    expect(makespan).toBeLessThanOrEqual(row.optimum * 1.01);
  });
});
