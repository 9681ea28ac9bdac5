import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { planShop } from '../../../../core/engine';
import { DisjunctiveSearch, machineShopOf } from '../../../../core/engine/disjunctive';
import { Graph } from '../../../../core/engine/disjunctive/graph';
import { Random } from '../../../../core/engine/random';
import { jobShopAsShop, readJobShop } from '../../../../core/exchange';
import { problemOf } from '../../../../core/problem';
import { referee } from '../../../../core/referee';
import { demoShop } from '../../../../core/shop';
import { jobByJob, randomJobShop, randomMachineShop } from './random-job-shop';

describe('the search on machines alone', () => {
  it('keeps every move free of circles and each best sequence worth what it says, on 150 random job shops', () => {
    for (let seed = 1; seed <= 150; seed++) {
      const machineShop = randomMachineShop(seed);
      const { order, option } = jobByJob(machineShop);
      const search = new DisjunctiveSearch(machineShop, new Random(seed), order, option);
      const graph = new Graph(machineShop);
      let before = search.best;
      for (let i = 0; i < 400; i++) {
        search.step();
        if (search.best === before) continue;
        graph.load(search.best.order, search.best.option);
        expect(graph.makespan, `shop ${seed}`).toBe(search.best.makespan);
        expect(search.best.makespan).toBeLessThan(before.makespan);
        before = search.best;
      }
    }
  });

  it('gives the same sequence for the same seed and steps', () => {
    const machineShop = randomMachineShop(8);
    const { order, option } = jobByJob(machineShop);
    const searched = (steps: number) => {
      const search = new DisjunctiveSearch(machineShop, new Random(5), order, option);
      for (let i = 0; i < steps; i++) search.step();
      return search;
    };
    const { best } = searched(30_000);
    expect(searched(30_000).best).toEqual(best);
  });

  it('takes up a better sequence found elsewhere when its tabu search under way has lost its patience', () => {
    const text = readFileSync(new URL('../../../published/jobshop/instances/swv06.txt', import.meta.url), 'utf8');
    const read = readJobShop(text, 'swv06');
    if (!read.ok) throw new Error(read.faults[0]?.say);
    const shop = jobShopAsShop(read.value);
    const machineShop = machineShopOf(problemOf(shop, shop.planFrom!))!;
    const { order, option } = jobByJob(machineShop);
    const searched = (seed: number, steps: number, guest: DisjunctiveSearch['best'] | null) => {
      const search = new DisjunctiveSearch(machineShop, new Random(seed), order, option);
      if (guest !== null) search.join(guest.order, guest.option);
      for (let i = 0; i < steps; i++) search.step();
      return search.best;
    };
    const good = searched(1, 150_000, null);
    expect(searched(3, 60_000, null).makespan).toBeGreaterThan(good.makespan);
    expect(searched(3, 60_000, good).makespan).toBeLessThanOrEqual(good.makespan);
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
