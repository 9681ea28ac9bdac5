import { existsSync } from 'node:fs';
import { mkdir, readdir } from 'node:fs/promises';
import { join } from 'node:path';
import type { CopyView, PlanView, Reply } from '../../core/contract';
import { differenceSentences, withDifferences } from '../../core/shop';
import { messageOf, Refusal, refusal } from '../refusal';
import { type Changed, type Origin, openStore, type Store } from '../store';
import { isSameShop } from './plan-views';
import type { Tell } from './planning';
import type { Services } from './services';

/** Named copies of the shop, each in a file of its own beside it, with services of its own. */
export interface Copies {
  list(): Promise<CopyView[]>;
  make(name: string): Promise<void>;
  name(id: string, name: string): Promise<void>;
  discard(id: string): Promise<void>;
  adopt(id: string): Promise<Changed>;
  /** Plans those copies one after the other; each end, also a refusal to begin, comes as an event of that copy. */
  plan(ids: readonly string[], wish: PlanWish): Promise<void>;
  call(id: string, call: string, sent: unknown): Promise<unknown>;
  view(id: string, plan: number | null): Promise<PlanView>;
  close(): Promise<void>;
}

interface PlanWish {
  readonly seconds: number;
  readonly seed: number;
}

interface Open {
  readonly store: Store;
  readonly services: Services;
  planning: boolean;
}

/** Calls that are the shop's own: copies of a copy, and what people work by. */
const NOT_OF_A_COPY = /^(copy|seat)\.|^plan\.release$/;

/**
 * The copies beside a shop's file. `servicesOn` gives a copy's store the services that all of them share threads with.
 */
export function copiesOf(store: Store, now: () => string, servicesOn: (store: Store) => Services, tell: Tell): Copies {
  const folder = join(store.folder, 'copies');
  const opened = new Map<string, Promise<Open>>();
  // The number of a discarded copy is not given again: a screen may still be open on it.
  let lastMade = 0;

  const fileOf = (id: string): string => join(folder, `${id}.sqlite`);

  async function idsThere(): Promise<string[]> {
    if (!existsSync(folder)) return [];
    const files = (await readdir(folder)).filter((name) => name.endsWith('.sqlite'));
    return files.map((name) => name.slice(0, -'.sqlite'.length)).sort((a, b) => Number(a) - Number(b));
  }

  async function openOne(id: string): Promise<Open> {
    const copy = await openStore(
      fileOf(id),
      () => {
        throw gone(id);
      },
      now,
      { isCopy: true },
    );
    const services = servicesOn(copy);
    const open: Open = { store: copy, services, planning: false };
    services.listen((event, data) => {
      if (event === 'plan.done' || event === 'plan.failed') open.planning = false;
      tell('copy.said', { copy: id, event, data });
      if (event === 'shop.changed' || event === 'plan.done' || event === 'plan.failed') tell('copy.changed', { id });
    });
    return open;
  }

  async function openAt(id: string): Promise<Open> {
    if (!existsSync(fileOf(id))) throw gone(id);
    const open = opened.get(id) ?? openOne(id);
    opened.set(id, open);
    open.catch(() => opened.delete(id));
    return open;
  }

  async function ask<T>(open: Open, call: string, sent: unknown): Promise<T> {
    const reply = (await open.services.call(call, sent)) as Reply<T>;
    if (!reply.ok) throw new Refusal(reply.faults);
    return reply.value;
  }

  async function viewOf(id: string): Promise<CopyView> {
    const open = await openAt(id);
    const { name, made, base } = await originOf(open, id);
    const { shop } = await open.store.readShop();
    const view = await ask<PlanView | null>(open, 'plan.current', null);
    const current = (await open.store.listPlans()).find((plan) => plan.current);
    return {
      id,
      name,
      made,
      differences: differenceSentences(base, shop),
      plan: current === undefined || view === null ? null : { ...current, outdated: view.outdated },
      planning: open.planning,
    };
  }

  async function planOne(id: string, wish: PlanWish): Promise<void> {
    const open = await openAt(id);
    open.planning = true;
    tell('copy.changed', { id });
    try {
      await planned(open, wish);
    } finally {
      open.planning = false;
      tell('copy.changed', { id });
    }
  }

  /** Resolves when the plan is there or has failed. */
  function planned(open: Open, wish: PlanWish): Promise<void> {
    return new Promise((resolve, reject) => {
      const unlisten = open.services.listen((event) => {
        if (event !== 'plan.done' && event !== 'plan.failed') return;
        unlisten();
        resolve();
      });
      ask(open, 'plan.start', { ...wish, near: false }).catch((error: unknown) => {
        unlisten();
        reject(error);
      });
    });
  }

  return {
    async list() {
      return Promise.all((await idsThere()).map(viewOf));
    },
    async make(name) {
      await mkdir(folder, { recursive: true });
      lastMade = Math.max(lastMade, ...(await idsThere()).map(Number)) + 1;
      const id = String(lastMade);
      await store.copyTo(fileOf(id), name);
      tell('copy.changed', { id });
    },
    async name(id, name) {
      await (await openAt(id)).store.nameCopy(name);
      tell('copy.changed', { id });
    },
    async discard(id) {
      const open = await openAt(id);
      if (open.planning) throw refusal('planning', 'A plan is being made for this copy; stop it first.');
      opened.delete(id);
      await open.store.close();
      await store.keepAside(fileOf(id));
      tell('copy.changed', { id });
    },
    async adopt(id) {
      const open = await openAt(id);
      const { name, base } = await originOf(open, id);
      const { shop: theirs } = await open.store.readShop();
      const plan = await open.store.readPlan('current');
      const changed = await store.changeShop(`Adopt “${name}”`, (mine) => withDifferences(mine, base, theirs));
      // Its plan is one for the shop only if nothing else had changed there.
      if (plan !== null && isSameShop(changed.shop, plan.shop)) {
        await store.addPlan({ plan: plan.plan, of: changed, made: plan.made, say: 'Plan', joins: changed.change });
      }
      return changed;
    },
    async plan(ids, wish) {
      for (const id of ids) {
        await planOne(id, wish).catch((error: unknown) => {
          const { faults } = error instanceof Refusal ? error : refusal('defect', messageOf(error));
          tell('copy.said', { copy: id, event: 'plan.failed', data: { faults } });
        });
      }
    },
    async call(id, call, sent) {
      if (NOT_OF_A_COPY.test(call)) throw refusal('not-of-a-copy', `${call} is not asked of a copy of the shop.`);
      const open = await openAt(id);
      const value = await ask(open, call, sent);
      if (call === 'plan.start') {
        open.planning = true;
        tell('copy.changed', { id });
      }
      return value;
    },
    async view(id, plan) {
      const open = await openAt(id);
      const view = await ask<PlanView | null>(
        open,
        plan === null ? 'plan.current' : 'plan.read',
        plan === null ? null : { id: plan },
      );
      if (view === null) throw refusal('no-plan', 'There is no plan of this copy yet. Plan it first.');
      return view;
    },
    async close() {
      for (const open of opened.values()) await open.then(({ store: copy }) => copy.close()).catch(() => undefined);
    },
  };
}

function gone(id: string): Refusal {
  return refusal('no-such-copy', `There is no copy ${id} of the shop any more; choose one of the list.`);
}

async function originOf({ store }: Open, id: string): Promise<Origin> {
  const origin = await store.readOrigin();
  if (origin === null) throw gone(id);
  return origin;
}
