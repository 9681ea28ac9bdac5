import type { CallName, EventName, Events, PlanView, Reply, Returned, Sent, ShopView } from '../../core/contract';
import { isPlanList, readSheet, readShopText, writePlanList, writeShopList, writeShopText } from '../../core/exchange';
import { reportOn } from '../../core/explain';
import { demoShop, emptyShop, type Fault, faultsOf } from '../../core/shop';
import { ownZone, type Present } from '../clock';
import { messageOf, Refusal, refusal } from '../refusal';
import type { Nights, Solver } from '../solver';
import type { Store, StoredPlan, StoredShop } from '../store';
import { inputs } from './inputs';
import { planningWith } from './planning';
import { withoutRow, withRow, withRows } from './shop-edits';
import { tonightWith } from './tonight';

export type Listener = <K extends EventName>(name: K, event: Events[K]) => void;

/** What both carriers carry: every call of the contract, from unknown input to a reply that never throws. */
export interface Services {
  call(name: unknown, sent: unknown): Promise<Reply<unknown>>;
  /** Returns how to stop listening. */
  listen(listener: Listener): () => void;
}

type Handlers = { readonly [K in CallName]: (sent: Sent<K>) => Promise<Returned<K>> };

export function createServices(store: Store, solver: Solver, nights: Nights, present: Present): Services {
  const listeners = new Set<Listener>();
  const tell: Listener = (name, event) => {
    for (const listener of listeners) listener(name, event);
  };
  const planning = planningWith(store, solver, present, tell);
  const views = planViews(store);
  const tonight = tonightWith(nights, tell);
  const viewOfPlan = async (id: number): Promise<PlanView> => {
    const view = await views.read(id);
    if (view === null) throw refusal('no-such-plan', `There is no plan ${id}; choose one of the list.`);
    return view;
  };

  const shopView = ({ shop, revision }: StoredShop): ShopView => {
    const now = present(shop.zone);
    return { shop, revision, faults: faultsOf(shop, shop.planFrom ?? now), present: now };
  };
  const changed = async (change: Promise<StoredShop>): Promise<ShopView> => {
    const stored = await change;
    tell('shop.changed', { revision: stored.revision });
    return shopView(stored);
  };
  const replaceable = (): void => {
    if (planning.busy) throw refusal('planning', 'A plan is being made for this shop; stop it first.');
  };

  const handlers = {
    'shop.read': async () => shopView(await store.readShop()),
    'shop.put': ({ table, replaces, row }) => changed(store.changeShop((shop) => withRow(shop, table, replaces, row))),
    'shop.putMany': ({ table, rows }) => changed(store.changeShop((shop) => withRows(shop, table, rows))),
    'sheet.read': async (sheet) => readSheet((await store.readShop()).shop, sheet),
    'shop.remove': ({ table, id }) => changed(store.changeShop((shop) => withoutRow(shop, table, id))),
    'shop.settings': (settings) => changed(store.changeShop((shop) => ({ ...shop, ...settings }))),
    'shop.import': async ({ text }) => {
      replaceable();
      const read = readShopText(text);
      if (!read.ok) throw new Refusal(read.faults);
      return changed(store.replaceShop(read.value, 'import'));
    },
    'shop.export': async () => {
      const { shop } = await store.readShop();
      return { fileName: `${fileNameOf(shop.name)}.json`, text: writeShopText(shop) };
    },
    'list.export': async ({ list }) => {
      const { shop } = await store.readShop();
      const fileName = `${fileNameOf(shop.name)}-${list}.csv`;
      if (!isPlanList(list)) return { fileName, text: writeShopList(shop, list) };
      const view = await views.read('latest');
      if (view === null) throw refusal('no-plan', 'There is no plan yet whose list could be saved; plan first.');
      return { fileName, text: writePlanList(view, list) };
    },
    'shop.reset': async ({ to }) => {
      replaceable();
      const zone = ownZone();
      const shop = to === 'demo' ? demoShop(present(zone).slice(0, 10)) : emptyShop(zone);
      return changed(store.replaceShop(shop, 'reset'));
    },
    'plan.start': async (wish) => {
      await planning.start(wish);
      return null;
    },
    'plan.stop': async () => {
      planning.stop();
      return null;
    },
    'plan.latest': () => views.read('latest'),
    'plan.list': () => store.listPlans(),
    'plan.read': ({ id }) => viewOfPlan(id),
    'plan.release': async ({ id, checked }) => {
      const { shop } = await viewOfPlan(id);
      await store.releasePlan(id, { at: present(shop.zone), checked });
      return viewOfPlan(id);
    },
    'tonight.read': async ({ id }) => tonight.read(await viewOfPlan(id)),
    'tonight.buy': async ({ id, visitAt }) => {
      tonight.buy(await viewOfPlan(id), visitAt);
      return null;
    },
    'seat.read': () => store.readSeat(),
    'seat.put': async (seat) => {
      await store.writeSeat(seat);
      return seat;
    },
  } satisfies Handlers;

  return {
    async call(name, sent) {
      try {
        if (!isCallName(name)) throw refusal('no-such-call', `There is no call ${JSON.stringify(name)}.`);
        return { ok: true, value: await answer(handlers, name, sent) };
      } catch (error) {
        return { ok: false, faults: faultsIn(error) };
      }
    },
    listen(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

function isCallName(name: unknown): name is CallName {
  return typeof name === 'string' && Object.hasOwn(inputs, name);
}

function answer<K extends CallName>(handlers: Handlers, name: K, sent: unknown): Promise<Returned<K>> {
  const parsed = inputs[name].safeParse(sent);
  if (!parsed.success) {
    throw new Refusal(
      parsed.error.issues.map((issue) => {
        const at = issue.path.map((key) => (typeof key === 'symbol' ? String(key) : key));
        const place = at.length === 0 ? name : `${name}, ${at.join(' ')}`;
        return { code: 'bad-input', at, say: `${place}: ${issue.message}.`, level: 'error' };
      }),
    );
  }
  // `inputs` is held to the contract where it is written; TypeScript can't follow the key from there to here.
  return handlers[name](parsed.data as Sent<K>);
}

function faultsIn(error: unknown): readonly Fault[] {
  if (error instanceof Refusal) return error.faults;
  console.error(error);
  const say = `Something went wrong inside the program (${messageOf(error)}). What was saved before is still there.`;
  return [{ code: 'defect', at: [], say, level: 'error' }];
}

/** Stored plans with their reports. The last one is kept, because several screens ask for it after each change. */
function planViews(store: Store): { read(which: number | 'latest'): Promise<PlanView | null> } {
  let last: Omit<PlanView, 'outdated' | 'released'> | null = null;
  return {
    async read(which) {
      const stored = await store.readPlan(which);
      if (stored === null) return null;
      const { revision } = await store.readShop();
      if (last?.id !== stored.id || last.made !== stored.made) last = viewOf(stored);
      return { ...last, outdated: stored.revision !== revision, released: stored.released };
    },
  };
}

function viewOf({ id, made, plan, shop }: StoredPlan): Omit<PlanView, 'outdated' | 'released'> {
  return { id, made, plan, shop, report: reportOn(shop, plan) };
}

/** The shop's name as a file name on every platform. */
function fileNameOf(name: string): string {
  const plain = name.replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-+|-+$/g, '');
  return plain === '' ? 'shop' : plain.toLowerCase();
}
