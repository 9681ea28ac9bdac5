import type { Plan } from '../../core/shop';
import type { PlanningJob } from './messages';
import { Run, type Watch } from './run';
import { Thread } from './thread';

/** Makes plans in threads of its own. */
export interface Solver {
  /** One planning run; rejects with what went wrong if every thread fails. Only one at a time. */
  solve(job: PlanningJob, watch: Watch): Promise<Plan>;
  /**
   * Ends the run that is going on, which then resolves with its best plan: within a tenth of a second for up to 2,000
   * runs.
   */
  stop(): void;
  readonly busy: boolean;
  close(): Promise<void>;
}

/** Where a solver's threads begin, beside an entry of this program: in a bundle, or from source. */
export function workerBeside(entry: string): URL {
  return new URL(entry.endsWith('.ts') ? './solver/solver-worker.ts' : './solver-worker.js', entry);
}

/** Each holds a shop and its schedules of its own; so many stay under 500 MB with 50 machines and 2,000 runs. */
export const MOST_WORKERS = 8;

/** A solver of that many workers, 1 to {@link MOST_WORKERS}, that search side by side. */
export function createSolver(workerUrl: URL, workers: number): Solver {
  const threads = Array.from({ length: Math.max(1, Math.min(workers, MOST_WORKERS)) }, () => new Thread(workerUrl));
  let running: Run | null = null;

  return {
    async solve(job, watch) {
      if (running !== null) throw new Error('a plan is being made already');
      // A search that hardly moves anything is no work for several, and the cheapest of their plans need not be the nearest.
      running = new Run(job.near === undefined ? threads : threads.slice(0, 1), job, watch);
      try {
        return await running.ended;
      } finally {
        running = null;
      }
    },
    stop: () => running?.stop(),
    get busy() {
      return running !== null;
    },
    async close() {
      await Promise.all(threads.map((thread) => thread.close()));
    },
  };
}
