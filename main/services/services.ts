import type { CallName, EventName, Events, PlanView, Reply, Returned, Sent, ShopView } from '../../core/contract';
import { isPlanList, readImport, readShopText, writePlanList, writeShopList, writeShopText } from '../../core/exchange';
import { comparePlans, comparisonSentences } from '../../core/explain';
import { substitutesFor } from '../../core/measure';
import { toolLedger } from '../../core/night';
import { demoShop, emptyShop, type Fault, faultsOf, runsOf } from '../../core/shop';
import { ownZone, type Present } from '../clock';
import { messageOf, Refusal, refusal } from '../refusal';
import type { Nights, Solver, Trials } from '../solver';
import type { Store, StoredShop } from '../store';
import { type Copies, copiesOf } from './copies';
import { deskWith } from './desk';
import { fileNameOf } from './file-name';
import { inputs } from './inputs';
import { planViewsOf } from './plan-views';
import { planningWith } from './planning';
import { sheetFile, sheetOf } from './sheet';
import { idOfRow, withoutRow, withRow, withRows } from './shop-edits';
import { tonightWith } from './tonight';

export type Listener = <K extends EventName>(name: K, event: Events[K]) => void;

/** What both carriers carry: every call of the contract, from unknown input to a reply that never throws. */
export interface Services {
  call(name: unknown, sent: unknown): Promise<Reply<unknown>>;
  /** Returns how to stop listening. */
  listen(listener: Listener): () => void;
  /** Closes the copies of the shop; its own store and threads are its owner's. */
  close(): Promise<void>;
}

/** What the services of a shop and of all its copies work with. */
export interface Equipment {
  readonly solver: Solver;
  readonly nights: Nights;
  readonly trials: Trials;
  readonly present: Present;
}

type Handlers = { readonly [K in CallName]: (sent: Sent<K>) => Promise<Returned<K>> };

/** Sentences of a comparison that are read first. */
const SENTENCES = 6;

export function createServices(store: Store, equipment: Equipment): Services {
  const { solver, nights, trials, present } = equipment;
  const listeners = new Set<Listener>();
  const tell: Listener = (name, event) => {
    for (const listener of listeners) listener(name, event);
  };
  const planning = planningWith(store, solver, present, tell);
  const views = planViewsOf(store);
  const tonight = tonightWith(nights, tell);
  const desk = deskWith(store, views, trials, present);
  const copies = copiesOf(
    store,
    () => present(ownZone()),
    (copy) => createServices(copy, equipment),
    tell,
  );

  const shopView = async ({ shop, revision }: StoredShop): Promise<ShopView> => {
    const now = present(shop.zone);
    const faults = faultsOf(shop, shop.planFrom ?? now);
    return { shop, revision, faults, present: now, wayBack: await store.wayBack() };
  };
  const changed = async (change: Promise<StoredShop>): Promise<ShopView> => {
    const stored = await change;
    tell('shop.changed', { revision: stored.revision });
    return shopView(stored);
  };
  /** No row has changed, but what undo would do. */
  const tellOfWayBack = async (): Promise<void> => {
    tell('shop.changed', { revision: (await store.readShop()).revision });
  };
  const refuseWhilePlanning = (): void => {
    if (planning.busy) throw refusal('planning', 'A plan is being made for this shop; stop it first.');
  };
  const planOf = async ({ copy, plan }: Sent<'plan.compare'>['before']): Promise<PlanView> => {
    if (copy !== null) return copies.view(copy, plan);
    const view = plan === null ? await views.current() : await views.read(plan);
    if (view === null) throw refusal('no-plan', 'There is no plan yet. Press Plan first.');
    return view;
  };

  const handlers = {
    'shop.read': async () => shopView(await store.readShop()),
    'shop.put': ({ table, replaces, row }) =>
      changed(store.changeShop(putWords(table, replaces, row), (shop) => withRow(shop, table, replaces, row))),
    'shop.remove': ({ table, id }) =>
      changed(store.changeShop(`Delete ${id} from ${table}`, (shop) => withoutRow(shop, table, id))),
    'shop.settings': (settings) =>
      changed(store.changeShop('Change the shop’s settings', (shop) => ({ ...shop, ...settings }))),
    'shop.putMany': ({ table, rows, say }) => changed(store.changeShop(say, (shop) => withRows(shop, table, rows))),
    'rows.read': async (cells) => readImport((await store.readShop()).shop, cells),
    'shop.import': async ({ text }) => {
      refuseWhilePlanning();
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
      const view = await views.current();
      if (view === null) throw refusal('no-plan', 'There is no plan yet whose list could be saved; plan first.');
      return { fileName, text: writePlanList(view, list) };
    },
    'shop.reset': async ({ to }) => {
      refuseWhilePlanning();
      const zone = ownZone();
      const shop = to === 'demo' ? demoShop(present(zone).slice(0, 10)) : emptyShop(zone);
      return changed(store.replaceShop(shop, 'reset'));
    },
    'change.undo': async () => {
      refuseWhilePlanning();
      return changed(store.undo());
    },
    'change.redo': async () => {
      refuseWhilePlanning();
      return changed(store.redo());
    },
    'change.list': () => store.listChanges(),
    'desk.try': ({ change, seconds }) => desk.try(change, seconds),
    'desk.take': async ({ change, trial }) => {
      refuseWhilePlanning();
      return changed(desk.take(change, trial));
    },
    'plan.start': async (wish) => {
      await planning.start(wish);
      return null;
    },
    'plan.stop': async () => {
      planning.stop();
      return null;
    },
    'plan.current': () => views.current(),
    'plan.list': () => store.listPlans(),
    'plan.read': ({ id }) => views.read(id),
    'plan.name': async ({ id, name }) => {
      await views.read(id);
      await store.namePlan(id, name);
      await tellOfWayBack();
      return store.listPlans();
    },
    'plan.use': async ({ id, withShop }) => {
      refuseWhilePlanning();
      const { made, shop } = await views.read(id);
      const say = `Bring back the plan of ${made.replace('T', ' ')}${withShop ? ' and its shop' : ''}`;
      return changed(store.usePlan(id, say, withShop ? shop : null));
    },
    'plan.why': async ({ id, about }) => {
      const { shop, plan } = await views.read(id);
      return trials.why({ shop, plan, about });
    },
    'plan.tools': async ({ id }) => {
      const { shop, plan } = await views.read(id);
      return toolLedger(shop, plan).kinds;
    },
    'plan.substitutes': async ({ id, run }) => {
      const { shop, plan } = await views.read(id);
      if (!runsOf(shop).some((need) => need.id === run)) {
        throw refusal('no-such-run', `There is no run ${run} in plan ${id}; choose one of its runs.`);
      }
      return substitutesFor(shop, plan, run);
    },
    'plan.compare': async ({ before, after }) => {
      const comparison = comparePlans(await planOf(before), await planOf(after));
      return { comparison, say: comparisonSentences(comparison, SENTENCES) };
    },
    'plan.release': async ({ id, checked }) => {
      const { shop } = await views.read(id);
      await store.releasePlan(id, { at: present(shop.zone), checked });
      await tellOfWayBack();
      return views.read(id);
    },
    'tonight.read': async ({ id }) => tonight.read(await views.read(id)),
    'tonight.buy': async ({ id, visitAt }) => {
      tonight.buy(await views.read(id), visitAt);
      return null;
    },
    'copy.list': () => copies.list(),
    'copy.make': async ({ name }) => listed(copies, copies.make(name)),
    'copy.name': async ({ id, name }) => listed(copies, copies.name(id, name)),
    'copy.discard': async ({ id }) => listed(copies, copies.discard(id)),
    'copy.adopt': async ({ id }) => {
      refuseWhilePlanning();
      return changed(copies.adopt(id));
    },
    'copy.plan': async ({ ids, ...wish }) => {
      // Not waited for: no call takes as long as planning may.
      void copies.plan(ids, wish).catch((error: unknown) => console.error(error));
      return null;
    },
    'copy.call': ({ copy, call, sent }) => copies.call(copy, call, sent),
    'sheet.read': async ({ id }) => sheetOf(await views.read(id)),
    'sheet.pdf': async ({ id, paper }) => sheetFile(await views.read(id), paper),
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
    close: () => copies.close(),
  };
}

async function listed(copies: Copies, work: Promise<void>): Promise<Returned<'copy.list'>> {
  await work;
  return copies.list();
}

function putWords(table: string, replaces: string | null, row: unknown): string {
  const id = idOfRow(row);
  if (replaces === null) return `Add ${id} to ${table}`;
  return id === replaces ? `Change ${id} in ${table}` : `Rename ${replaces} to ${id} in ${table}`;
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
