import { describe, expect, it, onTestFinished } from 'vitest';
import type { PlanProgress } from '../../../core/contract';
import { planShop } from '../../../core/engine';
import { referee } from '../../../core/referee';
import { demoShop, type Plan } from '../../../core/shop';
import { createSolver, type Solver, workerBeside } from '../../../main/solver';

const engine = workerBeside(new URL('../../../main/electron.ts', import.meta.url).href);
const shop = demoShop('2026-11-25');
const job = { shop, at: shop.planFrom ?? '', seconds: 600, steps: 300, seed: 3, previous: null };

function solverOf(workers: number): Solver {
  const solver = createSolver(engine, workers);
  onTestFinished(() => solver.close());
  return solver;
}

/** What of a plan does not hang on the computer's speed. */
function untimed({ search: { seconds: _, ...search }, ...plan }: Plan): object {
  return { ...plan, search };
}

describe('workers side by side', () => {
  it('give the same plan for the same seed, number of workers and steps', async () => {
    const solver = solverOf(2);
    const once = await solver.solve(job, {});
    const again = await solver.solve(job, {});
    expect(untimed(again)).toEqual(untimed(once));
    expect(once.search).toMatchObject({ seed: 3, steps: 600, ending: 'limit' });
    expect(once.bound?.tonight).toBeGreaterThanOrEqual(once.cost.tonight);
    expect(referee(shop, once).breaches).toEqual([]);
  });

  it('give the engine’s own plan where there is only one', async () => {
    const alone = await solverOf(1).solve(job, {});
    const { at, seconds, steps, seed } = job;
    const own = await planShop(shop, { at, seconds, steps, seed, clock: () => performance.now() });
    expect(untimed(alone)).toEqual(untimed(own));
  });

  it('keep the best plan told of when they are stopped', async () => {
    const solver = solverOf(2);
    const { steps: _, ...unlimited } = job;
    const told: PlanProgress[] = [];
    const better: Plan[] = [];
    const plan = await solver.solve(unlimited, {
      progress(progress) {
        told.push(progress);
        if (progress.phase === 'improve') solver.stop();
      },
      better: (found) => better.push(found),
    });
    expect(plan.search.ending).toBe('stopped');
    expect(plan.cost.total).toBeLessThanOrEqual(told.at(-1)?.cost?.total ?? Number.NEGATIVE_INFINITY);
    const totals = better.map(({ cost }) => cost.total);
    expect(totals).toEqual([...new Set(totals)].sort((a, b) => b - a));
    expect(plan.cost.total).toBe(totals.at(-1));
    expect(referee(shop, plan).breaches).toEqual([]);
  });
});
