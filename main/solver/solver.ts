import { Worker } from 'node:worker_threads';
import type { PlanProgress } from '../../core/contract';
import type { Plan } from '../../core/shop';
import type { FromSolver, PlanningJob, ToSolver } from './messages';

/** Makes plans in a thread of its own. */
export interface Solver {
  /** One planning run; rejects with what went wrong if the thread fails. Only one at a time. */
  solve(job: PlanningJob, onProgress: (progress: PlanProgress) => void): Promise<Plan>;
  /** Ends the run that is going on, which then resolves with its best plan. */
  stop(): void;
  close(): Promise<void>;
}

/** Where the solver's thread begins, beside an entry of this program: in a bundle, or from source. */
export function workerBeside(entry: string): URL {
  return new URL(entry.endsWith('.ts') ? './solver/solver-worker.ts' : './solver-worker.js', entry);
}

/** The thread is started with the first run and kept, because starting one takes longer than the first plan. */
export function createSolver(workerUrl: URL): Solver {
  let worker: Worker | null = null;
  let running: { resolve: (plan: Plan) => void; reject: (error: Error) => void } | null = null;
  let hear: (progress: PlanProgress) => void = () => undefined;

  const fail = (say: string): void => {
    const failed = running;
    running = null;
    failed?.reject(new Error(say));
  };

  function workerReady(): Worker {
    if (worker !== null) return worker;
    const started = startWorker(workerUrl);
    started.on('message', (message: FromSolver) => {
      if (message.type === 'progress') return hear(message.progress);
      if (message.type === 'failed') return fail(message.say);
      const done = running;
      running = null;
      done?.resolve(message.plan);
    });
    started.on('error', (error) => fail(error instanceof Error ? error.message : String(error)));
    started.on('exit', () => {
      if (worker === started) worker = null;
      fail('the planning thread ended');
    });
    worker = started;
    return started;
  }

  const send = (to: Worker, message: ToSolver): void => to.postMessage(message);

  return {
    solve(job, onProgress) {
      if (running !== null) return Promise.reject(new Error('a plan is being made already'));
      hear = onProgress;
      return new Promise((resolve, reject) => {
        running = { resolve, reject };
        send(workerReady(), { type: 'start', job });
      });
    },
    stop() {
      if (worker !== null && running !== null) send(worker, { type: 'stop' });
    },
    async close() {
      await worker?.terminate();
    },
  };
}

function startWorker(url: URL): Worker {
  if (!url.pathname.endsWith('.ts')) return new Worker(url);
  // A worker does not inherit the hooks that read TypeScript, so from source it registers them itself.
  const boot = `import('tsx/esm/api').then((tsx) => { tsx.register(); return import(${JSON.stringify(url.href)}); });`;
  return new Worker(boot, { eval: true });
}
