import { describe, expect, it } from 'vitest';
import type { Finding } from '../../../core/engine';
import { referee } from '../../../core/referee';
import { demoShop, type Plan, parseShop, type Shop } from '../../../core/shop';
import { addDays } from '../../../core/time';
import { planned } from './planned';
import { randomShop } from './random-shop';

const demo = demoShop('2026-11-25');

describe('every plan that leaves the engine', () => {
  it('passes the referee and keeps to its bound, on 400 random shops over a clock change', async () => {
    let runs = 0;
    for (let seed = 1; seed <= 400; seed++) {
      const { shop, at } = randomShop(seed);
      const plan = await planned(shop, at, 30);
      const verdict = referee(shop, plan);
      expect(verdict.breaches, `shop ${seed}`).toEqual([]);
      expect(plan.runs.length + plan.left.length).toBeGreaterThan(0);
      runs += plan.runs.length;
      if (plan.bound === null) continue;
      expect(plan.bound.total, `shop ${seed}`).toBeLessThanOrEqual(plan.cost.total + 1e-5);
      expect(plan.bound.tonight, `shop ${seed}`).toBeGreaterThanOrEqual(plan.cost.tonight - 1e-5);
      expect(plan.bound.lateness, `shop ${seed}`).toBeLessThanOrEqual(plan.cost.lateness + 1e-5);
      expect(plan.bound.finish, `shop ${seed}`).toBeLessThanOrEqual(plan.cost.finish + 1e-6);
    }
    expect(runs).toBeGreaterThan(5000);
  });

  it('passes it at every progress report, with the cost it says, on the demo week', async () => {
    const told: Plan[] = [];
    await planned(demo, demo.planFrom!, 3_000, { report: ({ plan }) => plan !== null && told.push(plan) });
    expect(told.length).toBeGreaterThan(2);
    for (const plan of told) expect(referee(demo, plan).breaches).toEqual([]);
  });
});

describe('the search', () => {
  it('makes the same plan again from the same seed and steps', async () => {
    const [first, second] = [await planned(demo, demo.planFrom!, 200), await planned(demo, demo.planFrom!, 200)];
    expect({ ...first, search: null }).toEqual({ ...second, search: null });
  });

  it('makes the same plan from the same steps whenever it is asked how far it is', async () => {
    for (let seed = 1; seed <= 100; seed++) {
      const { shop, at } = randomShop(seed);
      const plans: Plan[] = [];
      for (const pace of [0, 1, 30]) {
        let time = 0;
        const clock = () => (time += pace);
        plans.push(await planned(shop, at, 60, { allocate: false, report: () => undefined, clock }));
      }
      const [seldom, often, always] = plans.map((plan) => ({ ...plan, search: null }));
      expect(often, `shop ${seed}`).toEqual(seldom);
      expect(always, `shop ${seed}`).toEqual(seldom);
    }
  });

  it('is never worse than its beginning, and better with steps to spend', async () => {
    const totals: number[] = [];
    for (const steps of [0, 50, 800]) totals.push((await planned(demo, demo.planFrom!, steps)).cost.total);
    const [begin, few, many] = totals as [number, number, number];
    expect(few).toBeLessThanOrEqual(begin);
    expect(many).toBeLessThan(begin);
  });

  it('keeps the best plan so far when it is stopped', async () => {
    let best = Number.POSITIVE_INFINITY;
    let reports = 0;
    const plan = await planned(demo, demo.planFrom!, 1_000_000, {
      report: (progress) => {
        reports++;
        if (progress.plan !== null) best = progress.plan.cost.total;
      },
      stopped: () => reports > 5,
    });
    expect(plan.search.ending).toBe('stopped');
    expect(plan.search.steps).toBeLessThan(1_000_000);
    expect(plan.cost.total).toBeLessThanOrEqual(best);
    expect(referee(demo, plan).legal).toBe(true);
  });

  it('gives the plan told last when it is stopped and another search has found a better one', async () => {
    let reports = 0;
    let told: Plan | null = null;
    const plan = await planned(demo, demo.planFrom!, 1_000_000, {
      report: (progress) => {
        reports++;
        told = progress.plan ?? told;
      },
      stopped: () => reports > 5,
      leastElsewhere: () => Number.NEGATIVE_INFINITY,
    });
    expect(plan.runs).toEqual((told as Plan | null)?.runs);
    expect(plan.search).toMatchObject({ ending: 'stopped' });
    expect(plan.search.steps).toBeGreaterThanOrEqual((told as Plan | null)?.search.steps ?? 0);
  });

  it('plans a week later as it plans this week', async () => {
    const later = demoShop(addDays('2026-11-25', 7));
    const [now, then] = [await planned(demo, demo.planFrom!, 100), await planned(later, later.planFrom!, 100)];
    expect(then.cost).toEqual(now.cost);
    expect(then.runs).toEqual(now.runs);
  });

  it('never falls behind the plan it is shown', async () => {
    const previous = await planned(demo, demo.planFrom!, 800);
    const again = await planned(demo, demo.planFrom!, 0, { previous, seed: 5 });
    expect(again.cost.total).toBeCloseTo(previous.cost.total, 6);
  });

  it('goes on from a better schedule that another search shows it, and shows its own at each twentieth', async () => {
    const good = { total: Number.POSITIVE_INFINITY } as Finding;
    const keep = async (own: Finding) => {
      Object.assign(good, own);
      return null;
    };
    await planned(demo, demo.planFrom!, 2_000, { seed: 2, meet: keep });
    const shown: number[] = [];
    const plan = await planned(demo, demo.planFrom!, 40, {
      seed: 3,
      allocate: false,
      meet: async ({ total }) => {
        shown.push(total);
        return good.total < total ? good : null;
      },
    });
    expect(shown).toHaveLength(19);
    expect(shown[0]).toBeGreaterThan(good.total);
    expect(shown.at(-1)).toBeLessThanOrEqual(good.total + 1e-6);
    expect(plan.bound).toBeNull();
    expect(referee(demo, plan).breaches).toEqual([]);
  });

  it('plans nothing where everything is done', async () => {
    const { shop, at } = randomShop(3);
    const floor = shop.jobs.flatMap((job) =>
      job.route.flatMap((op) =>
        Array.from({ length: Math.ceil(job.quantity / op.perPallet) }, (_, i) => ({
          run: `${job.id}/${op.id}/${i + 1}`,
          state: 'done' as const,
        })),
      ),
    );
    const done = parseShop({ ...shop, floor });
    if (!done.ok) throw new Error(done.faults[0]?.say);
    const plan = await planned(done.value, at, 10);
    expect([plan.runs, plan.left, plan.cost.finish]).toEqual([[], [], 0]);
  });

  it('stays near the released plan when moving costs much', async () => {
    const released = await planned(demo, demo.planFrom!, 400);
    const dear: Shop = { ...demo, weights: { ...demo.weights, moved: 1000 } };
    const again = await planned(dear, demo.planFrom!, 50, { released, seed: 7 });
    expect(again.cost.moved).toBe(0);
    expect(referee(dear, again, released).breaches).toEqual([]);
  });
});
