import { parentPort } from 'node:worker_threads';
import type { PlanProgress } from '../../core/contract';
import { planShop } from '../../core/engine';
import { messageOf } from '../refusal';
import type { FromSolver, PlanningJob, ToSolver } from './messages';

/** At most ten a second: more only keeps the screens busy. */
const PROGRESS_EVERY_MS = 100;

const NOTHING_YET = { cost: null, boundTotal: null, boundTonight: null };

/** The thread in which plans are made; one planning run at a time. */
let stopped = false;

function tell(message: FromSolver): void {
  parentPort?.postMessage(message);
}

async function start(job: PlanningJob): Promise<void> {
  stopped = false;
  let toldAt = Number.NEGATIVE_INFINITY;
  let best: Pick<PlanProgress, 'cost' | 'boundTotal' | 'boundTonight'> = NOTHING_YET;
  try {
    const plan = await planShop(job.shop, {
      at: job.at,
      seconds: job.seconds,
      seed: job.seed,
      ...(job.previous === null ? {} : { previous: job.previous }),
      clock: () => performance.now(),
      stopped: () => stopped,
      report: ({ phase, steps, seconds, plan, bound }) => {
        // The engine tells only what is new; the screens want the best so far each time.
        best = {
          cost: plan?.cost ?? best.cost,
          boundTotal: bound?.total ?? best.boundTotal,
          boundTonight: bound?.tonight ?? best.boundTonight,
        };
        if (performance.now() - toldAt < PROGRESS_EVERY_MS) return;
        toldAt = performance.now();
        tell({ type: 'progress', progress: { phase, seconds, limitSeconds: job.seconds, steps, ...best } });
      },
    });
    tell({ type: 'done', plan });
  } catch (error) {
    tell({ type: 'failed', say: messageOf(error) });
  }
}

parentPort?.on('message', (message: ToSolver) => {
  if (message.type === 'stop') stopped = true;
  else void start(message.job);
});
