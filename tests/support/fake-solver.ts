import type { PlanProgress } from '../../core/contract';
import { planShop } from '../../core/engine';
import type { Plan } from '../../core/shop';
import type { PlanningJob, Solver } from '../../main/solver';

export interface FakeSolver extends Solver {
  readonly jobs: PlanningJob[];
  readonly stops: number;
  progress(progress: PlanProgress): void;
  /** Tells of a real plan, changed as asked, while the run goes on. */
  better(change?: (plan: Plan) => Plan): Promise<void>;
  /** Ends the run that is going on with a real plan, changed as asked. */
  finish(change?: (plan: Plan) => Plan): Promise<void>;
  fail(error: Error): void;
}

/** A solver without a thread, that waits until a test tells it how to end. */
export function fakeSolver(): FakeSolver {
  const jobs: PlanningJob[] = [];
  let stops = 0;
  let hear: (progress: PlanProgress) => void = () => undefined;
  let hearBetter: (plan: Plan) => void = () => undefined;
  let ending: { resolve: (plan: Plan) => void; reject: (error: Error) => void } | null = null;
  return {
    jobs,
    get stops() {
      return stops;
    },
    solve(job, watch) {
      jobs.push(job);
      hear = watch.progress ?? (() => undefined);
      hearBetter = watch.better ?? (() => undefined);
      return new Promise((resolve, reject) => {
        ending = { resolve, reject };
      });
    },
    get busy() {
      return ending !== null;
    },
    stop: () => {
      stops += 1;
    },
    close: () => Promise.resolve(),
    progress: (progress) => hear(progress),
    async better(change = (plan) => plan) {
      hearBetter(change(await planFor(jobs)));
    },
    async finish(change = (plan) => plan) {
      ending?.resolve(change(await planFor(jobs)));
      ending = null;
    },
    fail: (error) => {
      ending?.reject(error);
      ending = null;
    },
  };
}

function planFor(jobs: readonly PlanningJob[]): Promise<Plan> {
  const job = jobs.at(-1);
  if (job === undefined) throw new Error('nothing is being planned');
  let now = 0;
  return planShop(job.shop, { at: job.at, seconds: 60, steps: 5, seed: job.seed, clock: () => now++ });
}
