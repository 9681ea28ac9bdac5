import type { Purchase } from '../../core/night';
import type { BuyJob, FromNights, NightJob, NightStudied, ToNights } from './night-messages';
import { startWorker } from './thread';

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

interface Waiting {
  readonly id: number;
  hear(message: FromNights): void;
  supersede(): void;
  fail(say: string): void;
}

export function createNights(workerUrl: URL): Nights {
  let worker: ReturnType<typeof startWorker> | null = null;
  let ids = 0;
  const waiting: { study: Waiting | null; buy: Waiting | null } = { study: null, buy: null };

  function started() {
    const thread = startWorker(workerUrl);
    thread.on('message', (message: FromNights) => {
      for (const one of [waiting.study, waiting.buy]) if (one?.id === message.id) one.hear(message);
    });
    const died = (say: string): void => {
      if (worker !== thread) return;
      worker = null;
      for (const one of [waiting.study, waiting.buy]) one?.fail(say);
      waiting.study = waiting.buy = null;
    };
    thread.on('error', (error) => died(error instanceof Error ? error.message : String(error)));
    thread.on('exit', () => died('the thread that plays nights ended'));
    return thread;
  }

  function ask<T>(
    type: ToNights['type'],
    job: NightJob | BuyJob,
    superseded: T,
    hear: (message: FromNights, resolve: (value: T) => void) => void,
  ): Promise<T> {
    waiting[type]?.supersede();
    const id = ++ids;
    return new Promise<T>((resolve, reject) => {
      const end = (): void => {
        if (waiting[type]?.id === id) waiting[type] = null;
      };
      const fail = (say: string): void => {
        end();
        reject(new Error(say));
      };
      const settle = (value: T): void => {
        end();
        resolve(value);
      };
      waiting[type] = {
        id,
        supersede: () => resolve(superseded),
        fail,
        hear: (message) => (message.type === 'failed' ? fail(message.say) : hear(message, settle)),
      };
      worker ??= started();
      worker.postMessage({ type, id, job } as ToNights);
    });
  }

  return {
    study: (job) =>
      ask<NightStudied | null>('study', job, null, (message, resolve) => {
        if (message.type === 'studied') resolve(message.studied);
      }),
    buy: (job, hear) =>
      ask<boolean>('buy', job, false, (message, resolve) => {
        if (message.type === 'bought') hear(message.purchase, message.left);
        else if (message.type === 'done') resolve(true);
      }),
    async close() {
      const ended = worker;
      worker = null;
      await ended?.terminate();
    },
  };
}
