import type { Purchase } from '../../core/night';
import { AskingThread } from './asking';
import type { BuyJob, FromNights, NightJob, NightStudied, ToNights } from './night-messages';

/** Plays nights in a thread of its own. */
export interface Nights {
  /** Null if a newer study has taken its place; rejects with what went wrong. */
  study(job: NightJob): Promise<NightStudied | null>;
  /** Prices one thing after the other; false if a newer job has taken its place. */
  buy(job: BuyJob, hear: (purchase: Purchase, left: number) => void): Promise<boolean>;
  close(): Promise<void>;
}

/** Where the thread that plays nights begins, beside the planning threads. */
export function nightsBeside(worker: URL): URL {
  return new URL(worker.href.replace('solver-worker', 'night-worker'));
}

export function createNights(workerUrl: URL): Nights {
  const thread = new AskingThread<ToNights, FromNights>(workerUrl, 'the thread that plays nights');
  return {
    study: (job) =>
      thread.ask<NightStudied | null>({ type: 'study', job }, null, (message, resolve, reject) => {
        if (message.type === 'studied') resolve(message.studied);
        else if (message.type === 'failed') reject(message.say);
      }),
    buy: (job, hear) =>
      thread.ask<boolean>({ type: 'buy', job }, false, (message, resolve, reject) => {
        if (message.type === 'bought') hear(message.purchase, message.left);
        else if (message.type === 'done') resolve(true);
        else if (message.type === 'failed') reject(message.say);
      }),
    close: () => thread.close(),
  };
}
