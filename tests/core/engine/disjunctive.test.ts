import { describe, expect, it } from 'vitest';
import { planShop } from '../../../core/engine';
import { DisjunctiveSearch, machineShopOf } from '../../../core/engine/disjunctive';
import { Graph } from '../../../core/engine/disjunctive/graph';
import { Random } from '../../../core/engine/random';
import { type JobShop, jobShopAsShop } from '../../../core/exchange';
import { problemOf } from '../../../core/problem';
import { referee } from '../../../core/referee';
import { demoShop } from '../../../core/shop';
import { numbers } from './random-shop';

/** Jobs of unequal length that may come to a machine more than once, with one to three machines to choose from. */
function randomJobShop(seed: number): JobShop {
  const pick = numbers(seed);
  const machines = 2 + pick(4);
  const jobs = Array.from({ length: 2 + pick(6) }, () =>
    Array.from({ length: 1 + pick(6) }, () => ({
      alternatives: Array.from({ length: 1 + pick(3) }, (_, i) => ({
        machine: (pick(machines) + i) % machines,
        minutes: 1 + pick(30),
      })).filter((a, i, all) => all.findIndex((b) => b.machine === a.machine) === i),
    })),
  );
  return { name: `random ${seed}`, machines, jobs };
}

describe('the search on machines alone', () => {
  it('keeps every move free of circles and its best sequence worth what it says, on 150 random job shops', () => {
    for (let seed = 1; seed <= 150; seed++) {
      const shop = jobShopAsShop(randomJobShop(seed));
      const machineShop = machineShopOf(problemOf(shop, shop.planFrom!))!;
      const inJobOrder = Int32Array.from({ length: machineShop.count }, (_, run) => run);
      const first = machineShop.optionFirst.slice(0, machineShop.count);
      const search = new DisjunctiveSearch(machineShop, new Random(seed), inJobOrder, first);
      const begin = search.best.makespan;
      for (let i = 0; i < 400; i++) search.step();
      const graph = new Graph(machineShop);
      graph.load(search.best.order, search.best.option);
      expect(graph.makespan, `shop ${seed}`).toBe(search.best.makespan);
      expect(search.best.makespan).toBeLessThanOrEqual(begin);
    }
  });

  it('gives plans that pass the referee and keep to their bound', async () => {
    for (let seed = 1; seed <= 60; seed++) {
      const shop = jobShopAsShop(randomJobShop(seed));
      let tick = 0;
      const plan = await planShop(shop, {
        at: shop.planFrom!,
        seconds: Number.POSITIVE_INFINITY,
        steps: 300,
        seed,
        clock: () => tick++,
      });
      expect(referee(shop, plan).breaches, `shop ${seed}`).toEqual([]);
      expect(plan.bound!.finish).toBeLessThanOrEqual(plan.cost.finish + 1e-9);
    }
  });

  it('plans with one to four operators legally and within its bound, and alone with one takes all the work', async () => {
    for (let seed = 1; seed <= 60; seed++) {
      const jobShop = randomJobShop(seed);
      const operators = 1 + (seed % 4);
      const shop = jobShopAsShop(jobShop, operators);
      expect(machineShopOf(problemOf(shop, shop.planFrom!))?.operators).toBe(operators);
      let tick = 0;
      const plan = await planShop(shop, {
        at: shop.planFrom!,
        seconds: Number.POSITIVE_INFINITY,
        steps: 200,
        seed,
        clock: () => tick++,
      });
      expect(referee(shop, plan).breaches, `shop ${seed}`).toEqual([]);
      expect(plan.bound!.finish).toBeLessThanOrEqual(plan.cost.finish + 1e-9);
      if (operators > 1) continue;
      const work = plan.runs.reduce((sum, run) => sum + run.end - run.start, 0);
      expect(Math.round(plan.cost.finish * 60)).toBe(work);
    }
  });

  it('leaves shops with hands and pallets to the general search', () => {
    const demo = demoShop('2026-11-25');
    expect(machineShopOf(problemOf(demo, demo.planFrom!))).toBeNull();
  });
});
