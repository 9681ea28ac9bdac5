import { describe, expect, it, onTestFinished } from 'vitest';
import { planShop } from '../../../core/engine';
import type { Plan } from '../../../core/shop';
import { createSolver, type PlanningJob, type Solver } from '../../../main/solver';
import { smallShop } from '../../support/small-shop';

/**
 * Workers that follow a script instead of searching: the job's `previous` plan stands for everything they find, at the
 * cost they name. `worker` is each one's number (the run's seed is 0, so the workers' seeds are their numbers).
 */
function scripted(script: string, workers: number): Solver {
  const frame = `
    import { parentPort } from 'node:worker_threads';
    let job, worker, met = [];
    const say = (message) => parentPort.postMessage(message);
    const costing = (total) => ({ ...job.previous, shop: 'of ' + worker, bound: null,
      cost: { ...job.previous.cost, total } });
    const meet = (total) => say({ type: 'meeting', own: { total, schedule: {} } });
    const tell = (total, bound = null) => say({ type: 'progress', progress: { phase: 'improve', steps: 7,
      seconds: 1, total: total ?? Infinity, plan: total === null ? null : costing(total), bound: bound === null ? null : { total: bound } } });
    const done = (total, ending = 'limit') => say({ type: 'done',
      plan: { ...costing(total), search: { seed: worker, steps: 10, seconds: worker, ending } } });
    const fail = (why) => say({ type: 'failed', say: why });
    const on = { start() {}, met() {}, stop() {}, ...(${script}) };
    parentPort.on('message', (message) => {
      if (message.type === 'start') { job = message.job; worker = job.seed; met = []; }
      if (message.type === 'met') met.push(message.best === null ? null : message.best.total);
      on[message.type](message);
    });`;
  const solver = createSolver(new URL(`data:text/javascript,${encodeURIComponent(frame)}`), workers);
  onTestFinished(() => solver.close());
  return solver;
}

async function jobOf(steps?: number): Promise<PlanningJob> {
  const shop = smallShop();
  const at = '2026-11-25T08:00';
  const previous = await planShop(shop, { at, seconds: 60, steps: 1, seed: 1, clock: () => 0 });
  return { shop, at, seconds: 600, ...(steps === undefined ? {} : { steps }), seed: 0, previous };
}

/** Whose plan it is, and what it costs. */
const endOf = ({ shop, cost }: Plan): [string, number] => [shop, cost.total];

describe('the meeting of workers', () => {
  it('with a limit in steps waits for all, and gives each the best of the others or nothing', async () => {
    // Worker 1 is the best with 5; 0 and 2 are told so, 1 is told nothing; each ends with what it heard.
    const solver = scripted(
      `{
        start() { setTimeout(() => meet([7, 5, 9][worker]), worker * 20); },
        met() { done(met[0] === null ? 5.5 : met[0] + worker); },
      }`,
      3,
    );
    const plan = await solver.solve(await jobOf(100), {});
    expect(endOf(plan)).toEqual(['of 0', 5]);
    expect(plan.search).toEqual({ seed: 0, steps: 30, seconds: 2, ending: 'limit' });
  });

  it('with a limit in seconds waits for nobody', async () => {
    // Worker 0 never meets; 2 brings the best and hears nothing; 1 hears of it when it meets next.
    const solver = scripted(
      `{
        start() { if (worker > 0) meet(worker === 2 ? 3 : 6); },
        met() {
          if (worker === 2) done(4);
          else if (met.at(-1) === null) setTimeout(() => meet(6), 5);
          else done(met.at(-1) - 1);
        },
        stop() { done(9); },
      }`,
      3,
    );
    const plan = await solver.solve(await jobOf(), {
      better: ({ cost }) => cost.total === 2 && solver.stop(),
    });
    expect(endOf(plan)).toEqual(['of 1', 2]);
  });

  it('no longer waits for a worker that died, failed or ended, and says in a sentence what was lost', async () => {
    const solver = scripted(
      `{
        start() {
          if (worker === 0) process.exit(1);
          if (worker === 1) fail('out of luck');
          if (worker === 2) done(8);
          if (worker > 2) meet(worker);
        },
        met() { done(met[0] === null ? 6 : 7); },
      }`,
      5,
    );
    const lost: string[] = [];
    const plan = await solver.solve(await jobOf(100), { lost: (say) => lost.push(say) });
    expect(plan.cost.total).toBe(6);
    expect(plan.search.steps).toBe(30);
    expect(lost.sort()).toEqual([
      'One of 5 workers was lost: out of luck.',
      'One of 5 workers was lost: the planning thread ended.',
    ]);
  });

  it('of equally good plans takes the one of the lowest worker', async () => {
    const solver = scripted(`{ start() { setTimeout(() => done(4), (2 - worker) * 20); } }`, 3);
    expect(endOf(await solver.solve(await jobOf(), {}))).toEqual(['of 0', 4]);
  });

  it('ends with a failure only where every worker failed', async () => {
    const solver = scripted(`{ start() { fail('no luck for ' + worker); } }`, 2);
    await expect(solver.solve(await jobOf(), {})).rejects.toThrow(/no luck for \d/);
  });
});

describe('a proof', () => {
  it('of one worker ends the others: with a limit in steps when they meet, else at once', async () => {
    const script = `{
      start() {
        if (worker === 0) tell(6, 4);
        if (worker === 1) done(4, 'proved');
        else if (job.steps !== undefined) meet(6);
      },
      stop() { done(5, 'stopped'); },
    }`;
    for (const steps of [100, undefined]) {
      const plan = await scripted(script, 3).solve(await jobOf(steps), {});
      expect(endOf(plan)).toEqual(['of 1', 4]);
      expect(plan).toMatchObject({ bound: { total: 4 }, search: { ending: 'proved' } });
    }
  });

  it('is there as soon as one worker’s plan meets the bound that another has found', async () => {
    const script = `{
      start() {
        if (worker === 0) tell(6, 4); else tell(4);
        if (job.steps !== undefined) meet(worker === 0 ? 6 : 4);
      },
      stop() { done(worker === 0 ? 6 : 4, 'stopped'); },
    }`;
    for (const steps of [100, undefined]) {
      const plan = await scripted(script, 2).solve(await jobOf(steps), {});
      expect(endOf(plan)).toEqual(['of 1', 4]);
      expect(plan).toMatchObject({ bound: { total: 4 }, search: { ending: 'proved' } });
    }
  });
});

describe('a stop', () => {
  it('ends a thread that does not hear it, and keeps the best plan that it told of', async () => {
    // As while a linear program is being solved; the second run shows that another thread took its place.
    const solver = scripted(
      `{
        start() {
          tell(worker === 0 ? 3 : 5);
          if (worker === 0) for (;;);
        },
        stop() { done(4, 'stopped'); },
      }`,
      2,
    );
    const given = await jobOf();
    for (let run = 0; run < 2; run++) {
      const plan = await solver.solve(given, { better: ({ cost }) => cost.total === 3 && solver.stop() });
      expect(endOf(plan)).toEqual(['of 0', 3]);
      expect(plan.search.ending).toBe('stopped');
    }
  });

  it('tells all the least cost found, unless the limit is in steps: what was told by then hangs on the clock', async () => {
    const script = `{
      start() { tell(worker === 0 ? 3 : 5); },
      stop({ least }) { if (worker === 0) setTimeout(() => done(3, 'stopped'), 50); else fail('heard ' + least); },
    }`;
    for (const [steps, heard] of [
      [undefined, '3'],
      [100, 'Infinity'],
    ] as const) {
      const solver = scripted(script, 2);
      const lost: string[] = [];
      const watch = {
        better: ({ cost }: Plan) => cost.total === 3 && solver.stop(),
        lost: (say: string) => lost.push(say),
      };
      await solver.solve(await jobOf(steps), watch);
      expect(lost).toEqual([`One of 2 workers was lost: heard ${heard}.`]);
    }
  });

  it('that comes before there is a plan ends with the first', async () => {
    const solver = scripted(`{ start() { tell(null); setTimeout(() => tell(5), 300); } }`, 2);
    const plan = await solver.solve(await jobOf(), { progress: () => solver.stop() });
    expect(plan.cost.total).toBe(5);
    expect(plan.search.ending).toBe('stopped');
  });
});
