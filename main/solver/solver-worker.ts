import { parentPort } from 'node:worker_threads';
import { type Finding, planShop } from '../../core/engine';
import { messageOf } from '../refusal';
import type { FromSolver, PlanningJob, ToSolver } from './messages';

/**
 * A thread in which plans are made; one planning run at a time. It hears a stop between two slices of the search, well
 * within 100 ms, but not while a linear program is being solved: then the main thread ends it.
 */
let stopped = false;
let leastElsewhere = Number.POSITIVE_INFINITY;
let leaveMeeting: ((best: Finding | null) => void) | null = null;

function tell(message: FromSolver): void {
  parentPort?.postMessage(message);
}

function endMeeting(best: Finding | null): void {
  leaveMeeting?.(best);
  leaveMeeting = null;
}

function meet(own: Finding): Promise<Finding | null> {
  // A stop that came before would not come again to end the wait.
  if (stopped) return Promise.resolve(null);
  return new Promise((resolve) => {
    leaveMeeting = resolve;
    tell({ type: 'meeting', own });
  });
}

async function start(job: PlanningJob, meets: boolean, allocate: boolean): Promise<void> {
  stopped = false;
  try {
    const plan = await planShop(job.shop, {
      at: job.at,
      seconds: job.seconds,
      ...(job.steps === undefined ? {} : { steps: job.steps }),
      seed: job.seed,
      ...(job.previous === null ? {} : { previous: job.previous }),
      ...(job.released === undefined ? {} : { released: job.released }),
      ...(job.near === undefined ? {} : { near: job.near }),
      ...(meets ? { meet } : {}),
      allocate,
      clock: () => performance.now(),
      stopped: () => stopped,
      leastElsewhere: () => leastElsewhere,
      report: (progress) => tell({ type: 'progress', progress }),
    });
    tell({ type: 'done', plan });
  } catch (error) {
    tell({ type: 'failed', say: messageOf(error) });
  }
}

parentPort?.on('message', (message: ToSolver) => {
  if (message.type === 'start') void start(message.job, message.meets, message.allocates);
  else if (message.type === 'met') endMeeting(message.best);
  else {
    stopped = true;
    leastElsewhere = message.least;
    tell({ type: 'stopping' });
    endMeeting(null);
  }
});
