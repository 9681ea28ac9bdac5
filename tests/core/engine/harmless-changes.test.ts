import { describe, expect, it } from 'vitest';
import { referee } from '../../../core/referee';
import { type Plan, parseShop, runsOf, type Shop } from '../../../core/shop';
import { addDays } from '../../../core/time';
import { planned } from './planned';
import { randomShop } from './random-shop';

const SHOPS = 60;

function plannedFrom(shop: Shop, steps: number): Promise<Plan> {
  return planned(shop, shop.planFrom!, steps, { allocate: false, clock: () => 0 });
}

/** The shop with every text in it, however deep, changed. */
function rewritten(shop: Shop, change: (text: string) => string): Shop {
  const walk = (value: unknown): unknown => {
    if (typeof value === 'string') return change(value);
    if (Array.isArray(value)) return value.map(walk);
    if (value === null || typeof value !== 'object') return value;
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, walk(inner)]));
  };
  const parsed = parseShop(walk(shop));
  if (!parsed.ok) throw new Error(parsed.faults[0]?.say);
  return parsed.value;
}

/** `M1` becomes `M-98`, so that names also sort the other way round; `J1/10/1` goes along with its job. */
const otherName = (text: string): string =>
  text.replace(/^([A-Z])(\d+)(?=$|\/)/, (_, letter: string, number: string) => `${letter}-${99 - Number(number)}`);

const laterBy = (days: number) => (text: string) => text.replace(/^\d{4}-\d\d-\d\d/, (date) => addDays(date, days));

function upsideDown(shop: Shop): Shop {
  const { people, cells, machines, pallets, jobs, floor } = shop;
  return {
    ...shop,
    people: people.toReversed(),
    cells: cells.toReversed(),
    machines: machines.toReversed(),
    pallets: pallets.toReversed(),
    floor: floor.toReversed(),
    jobs: jobs.toReversed().map((job) => ({
      ...job,
      route: job.route.map((operation) => ({ ...operation, machines: operation.machines.toReversed() })),
    })),
  };
}

describe('a change that means nothing', () => {
  it('keeps the cost and every minute of the plan when people, machines, pallets and jobs get other names', async () => {
    for (let seed = 1; seed <= SHOPS; seed++) {
      const { shop } = randomShop(seed);
      const [plan, renamed] = [await plannedFrom(shop, 60), await plannedFrom(rewritten(shop, otherName), 60)];
      expect(renamed.cost, `shop ${seed}`).toEqual(plan.cost);
      const minutes = ({ runs }: Plan, name: (run: string) => string) =>
        new Map(runs.map(({ run, load, start, end, unload }) => [name(run), [load?.start, start, end, unload?.end]]));
      expect(minutes(renamed, String), `shop ${seed}`).toEqual(minutes(plan, otherName));
    }
  });

  it('keeps the cost and every minute of the plan when all dates are weeks later', async () => {
    for (let seed = 1; seed <= SHOPS; seed++) {
      // A zone that never changes its clock: a night of another length is no harmless change.
      const shop: Shop = { ...randomShop(seed).shop, zone: 'Asia/Kolkata' };
      const [plan, later] = [await plannedFrom(shop, 60), await plannedFrom(rewritten(shop, laterBy(7 * seed)), 60)];
      expect(later.cost, `shop ${seed}`).toEqual(plan.cost);
      expect(later.runs, `shop ${seed}`).toEqual(plan.runs);
    }
  });

  it('keeps the cost of a plan when the rows of every table stand the other way round', async () => {
    for (let seed = 1; seed <= SHOPS; seed++) {
      const { shop } = randomShop(seed);
      const plan = await plannedFrom(shop, 30);
      const verdict = referee(upsideDown(shop), plan);
      // A plan that says another cost than the referee counts breaks a rule.
      expect(verdict.breaches, `shop ${seed}`).toEqual([]);
    }
  });

  it('hardly changes what a small shop comes to when the rows of every table stand the other way round', async () => {
    let compared = 0;
    let apart = 0;
    for (let seed = 1; seed <= 400; seed++) {
      const { shop } = randomShop(seed);
      // Where tools have to be replaced, so short a search often ends elsewhere.
      if (runsOf(shop).length > 8 || shop.tools.length > 0) continue;
      const [one, other] = [await plannedFrom(shop, 4_000), await plannedFrom(upsideDown(shop), 4_000)];
      apart += Math.abs(one.cost.total - other.cost.total);
      compared++;
    }
    expect(compared).toBeGreaterThan(15);
    // A plan of these shops costs up to a few hundred; one round costs 0.2.
    expect(apart / compared).toBeLessThan(0.2);
  });
});
