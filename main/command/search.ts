import { availableParallelism } from 'node:os';
import type { Plan } from '../../core/shop';
import { messageOf } from '../refusal';
import { createSolver, MOST_WORKERS, type PlanningJob } from '../solver';
import type { Given } from './arguments';
import type { Terminal } from './terminal';

const MOST_SECONDS = 86_400;
const MOST_STEPS = 1_000_000_000_000;
const MOST_SEED = 0x7fffffff;

/** The options of a command that searches. */
export const SEARCH_OPTIONS = {
  seconds: { type: 'string' },
  steps: { type: 'string' },
  seed: { type: 'string' },
  workers: { type: 'string' },
} as const;

export const SEARCH_LINE = '[--seconds S | --steps N] [--seed N] [--workers W]';

/** What a search is limited to: by seconds, or by the steps of each worker, which gives the same plan each time. */
export function limitOf(given: Given, usualSeconds: number): Pick<PlanningJob, 'seconds' | 'steps' | 'seed'> {
  const seed = given.whole('seed', 1, 0, MOST_SEED);
  if (given.text('steps') === null) return { seconds: given.number('seconds', usualSeconds, 0.1, MOST_SECONDS), seed };
  return {
    steps: given.whole('steps', 0, 0, MOST_STEPS),
    seconds: given.number('seconds', MOST_SECONDS, 0.1, MOST_SECONDS),
    seed,
  };
}

/** How many workers search side by side; without `--workers` as many as there are cores. */
export function workersOf(given: Given): number {
  return given.whole('workers', Math.min(MOST_WORKERS, availableParallelism()), 1, MOST_WORKERS);
}

/** Runs the engine; Ctrl-C ends it early with its best plan. Null, and a remark, if it found none. */
export async function planned(
  terminal: Terminal,
  workers: number,
  job: Omit<PlanningJob, 'previous'>,
): Promise<Plan | null> {
  const solver = createSolver(terminal.worker, workers);
  terminal.onStop(() => solver.stop());
  try {
    return await solver.solve({ ...job, previous: null }, { lost: (say) => terminal.remark(say) });
  } catch (error) {
    terminal.remark(`No plan was found: ${messageOf(error)}`);
    return null;
  } finally {
    await solver.close();
  }
}
