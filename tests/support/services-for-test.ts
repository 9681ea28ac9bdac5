import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import type { CallName, EventName, Events, Reply, Returned, Sent } from '../../core/contract';
import type { Fault, Shop } from '../../core/shop';
import { createServices, type Services } from '../../main/services';
import { createNights, createTrials } from '../../main/solver';
import { openStore, type Store } from '../../main/store';
import { type FakeSolver, fakeSolver } from './fake-solver';
import { smallShop } from './small-shop';
import { tempFolder } from './temp-folder';

export interface Bench {
  readonly folder: string;
  readonly store: Store;
  readonly services: Services;
  readonly solver: FakeSolver;
  /** What a call returns; a refusal fails the test. */
  ask<K extends CallName>(name: K, sent: Sent<K>): Promise<Returned<K>>;
  /** The faults with which a call is refused; an answer fails the test. */
  refused(name: unknown, sent: unknown): Promise<readonly Fault[]>;
  /** The next event of that name from now on. */
  next<K extends EventName>(name: K): Promise<Events[K]>;
}

/** The services on a shop in a folder of their own, with a solver that obeys the test; 25 November 2026, 08:00. */
export async function benchWith(shop: Shop = smallShop()): Promise<Bench> {
  const folder = tempFolder();
  const present = (): string => '2026-11-25T08:00';
  const store = await openStore(join(folder, 'shop.sqlite'), () => shop, present);
  onTestFinished(() => store.close());
  const solver = fakeSolver();
  const nights = createNights(new URL('../../main/solver/night-worker.ts', import.meta.url));
  onTestFinished(() => nights.close());
  const trials = createTrials(new URL('../../main/solver/trial-worker.ts', import.meta.url));
  onTestFinished(() => trials.close());
  const services = createServices(store, { solver, nights, trials, present });
  onTestFinished(() => services.close());
  return {
    folder,
    store,
    services,
    solver,
    async ask(name, sent) {
      const reply = (await services.call(name, sent)) as Reply<Returned<typeof name>>;
      if (reply.ok) return reply.value;
      throw new Error(reply.faults.map((fault) => fault.say).join('\n'));
    },
    async refused(name, sent) {
      const reply = await services.call(name, sent);
      if (reply.ok) throw new Error(`${String(name)} was answered`);
      return reply.faults;
    },
    next: (name) =>
      new Promise((resolve) => {
        const unlisten = services.listen((heard, event) => {
          if (heard !== (name as EventName)) return;
          unlisten();
          resolve(event as unknown as Events[typeof name]);
        });
      }),
  };
}
