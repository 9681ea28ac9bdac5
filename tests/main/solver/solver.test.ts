import { describe, expect, it, onTestFinished } from 'vitest';
import { referee } from '../../../core/referee';
import { demoShop, type Plan, shopSchema } from '../../../core/shop';
import { localAt } from '../../../core/time';
import { createSolver, type Solver, workerBeside } from '../../../main/solver';
import { smallShop } from '../../support/small-shop';

const source = new URL('../../../main/', import.meta.url);
const job = { shop: smallShop(), at: '2026-11-25T08:00', seconds: 0.1, seed: 1, previous: null };

function solverIn(worker: URL, workers = 1): Solver {
  const solver = createSolver(worker, workers);
  onTestFinished(() => solver.close());
  return solver;
}

describe('the planning thread', () => {
  const worker = workerBeside(new URL('electron.ts', source).href);

  it('is found beside an entry of a bundle, or from source', () => {
    expect(workerBeside('file:///app/out/main/electron.js').href).toBe('file:///app/out/main/solver-worker.js');
    expect(worker.pathname).toMatch(/main\/solver\/solver-worker\.ts$/);
  });

  it('makes legal plans one after the other', async () => {
    const solver = solverIn(worker);
    for (const seed of [1, 2]) {
      const plan = await solver.solve({ ...job, seed }, {});
      expect(referee(job.shop, plan).breaches).toEqual([]);
      expect(plan.search.seed).toBe(seed);
    }
  });

  it('tells how far it is, and keeps the best plan when it is stopped', async () => {
    const solver = solverIn(worker);
    const shop = demoShop('2026-11-25');
    const steps: number[] = [];
    const plan = await solver.solve(
      { ...job, shop, at: shop.planFrom ?? '', seconds: 600 },
      {
        progress(progress) {
          expect(progress.limitSeconds).toBe(600);
          steps.push(progress.steps);
          if (progress.cost !== null) solver.stop();
        },
      },
    );
    expect(plan.search.ending).toBe('stopped');
    expect(referee(shop, plan).breaches).toEqual([]);
    expect(steps.length).toBeGreaterThan(0);
  });

  it('refuses a second run beside the first', async () => {
    const solver = solverIn(worker);
    const first = solver.solve(job, {});
    await expect(solver.solve(job, {})).rejects.toThrow(/already/);
    await first;
  });

  it('makes a plan near to another one in one thread, and looks for no bounds if none are asked for', async () => {
    const solver = solverIn(worker, 3);
    const first = await solver.solve(job, {});
    const { run, start } = first.runs[0]!;
    const held = { run, state: 'locked', start: localAt(first.clock, start + 240) };
    const shop = { ...job.shop, floor: shopSchema.shape.floor.parse([held]) };
    const near = { ...job, shop, near: first, allocate: false };
    const told: Plan[] = [];
    const plan = await solver.solve({ ...near, steps: 0 }, { better: (better) => told.push(better) });
    expect(referee(shop, plan).breaches).toEqual([]);
    expect(plan.runs.find((one) => one.run === run)?.start).toBe(start + 240);
    expect(plan.bound).toBeNull();
    expect(told.at(-1)?.runs).toEqual(plan.runs);
    // Only one of the threads searches, and the steps are its own.
    expect((await solver.solve({ ...near, steps: 50 }, {})).search.steps).toBe(50);
  });

  it('says what went wrong inside it, and plans again after that', async () => {
    const solver = solverIn(worker);
    await expect(solver.solve({ ...job, at: 'never' }, {})).rejects.toThrow(/never/);
    await expect(solver.solve(job, {})).resolves.toBeDefined();
  });

  it('that dies ends the run with a failure', async () => {
    const solver = solverIn(new URL('data:text/javascript,process.exit(1)'));
    await expect(solver.solve(job, {})).rejects.toThrow(/planning thread ended/);
  });

  it('that can not be read ends the run with a failure', async () => {
    const solver = solverIn(new URL('no-such-worker.js', source));
    await expect(solver.solve(job, {})).rejects.toThrow(/no-such-worker/);
  });
});
