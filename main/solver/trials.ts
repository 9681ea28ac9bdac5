import type { Why } from '../../core/contract';
import { AskingThread } from './asking';
import type { FromTrials, ToTrials, TrialJob, Tried, WhyJob } from './trial-messages';

/** Tries changes by hand, and says why things are where they are, in a thread of its own. */
export interface Trials {
  /** Null if a newer question has taken its place; rejects with what went wrong. */
  try(job: TrialJob): Promise<Tried | null>;
  /** The same for a question why. */
  why(job: WhyJob): Promise<Why | null>;
  close(): Promise<void>;
}

/** Where the thread that tries changes begins, beside the planning threads. */
export function trialsBeside(worker: URL): URL {
  return new URL(worker.href.replace('solver-worker', 'trial-worker'));
}

export function createTrials(workerUrl: URL): Trials {
  const thread = new AskingThread<ToTrials, FromTrials>(workerUrl, 'the thread that tries changes');
  return {
    try: (job) =>
      thread.ask<Tried | null>({ type: 'try', job }, null, (message, resolve, reject) => {
        if (message.type === 'tried') resolve(message.tried);
        else if (message.type === 'failed') reject(message.say);
      }),
    why: (job) =>
      thread.ask<Why | null>({ type: 'why', job }, null, (message, resolve, reject) => {
        if (message.type === 'because') resolve(message.why);
        else if (message.type === 'failed') reject(message.say);
      }),
    close: () => thread.close(),
  };
}
