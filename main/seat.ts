import { availableParallelism } from 'node:os';
import { join } from 'node:path';
import { demoShop } from '../core/shop';
import { isLocalTime } from '../core/time';
import { ownZone, presentClock } from './clock';
import { refusal } from './refusal';
import { createServices, type Services } from './services';
import { createNights, createSolver, createTrials, nightsBeside, trialsBeside } from './solver';
import { dataFolder, openStore, type Store } from './store';

/** One seat at the shop: its stored shop and the services on it, for whatever carries them to a screen. */
export interface Seat {
  readonly folder: string;
  readonly store: Store;
  readonly services: Services;
  close(): Promise<void>;
}

export interface SeatOptions {
  /** The data folder; null takes `NIGHTLOAD_DATA` or the platform's place for it. */
  readonly data: string | null;
  /** A local time at which the clock stands still; null takes `NIGHTLOAD_AT` or the computer's clock. */
  readonly at: string | null;
  /** Where the planning threads begin. */
  readonly worker: URL;
}

/** Opens the stored shop, beginning with the demo shop where there is none. Throws a Refusal, nothing touched. */
export async function openSeat({ data, at, worker }: SeatOptions): Promise<Seat> {
  const folder = dataFolder(data, process.env, process.platform);
  const pinned = at ?? process.env.NIGHTLOAD_AT ?? null;
  if (pinned !== null && !isLocalTime(pinned)) {
    throw refusal('bad-time', `"${pinned}" is no date and time; write it as 2026-11-27T16:00.`);
  }
  const present = presentClock(pinned);
  const now = (): string => present(ownZone());
  const store = await openStore(join(folder, 'shop.sqlite'), () => demoShop(now().slice(0, 10)), now);
  // One core is left to the screens.
  const solver = createSolver(worker, availableParallelism() - 1);
  const nights = createNights(nightsBeside(worker));
  const trials = createTrials(trialsBeside(worker));
  const services = createServices(store, { solver, nights, trials, present });
  return {
    folder,
    store,
    services,
    async close() {
      await solver.close();
      await nights.close();
      await trials.close();
      await services.close();
      await store.close();
    },
  };
}
