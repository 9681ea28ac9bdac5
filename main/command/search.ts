import { availableParallelism } from 'node:os';
import type { Plan } from '../../core/shop';
import { messageOf } from '../refusal';
import { createSolver, MOST_WORKERS, type PlanningJob } from '../solver';
import type { Given } from './arguments';
import type { Terminal } from './terminal';

export const MOST_SECONDS = 86_400;
export const MOST_SEED = 0x7fffffff;

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
