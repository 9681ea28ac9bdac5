import { createStore, type StoreApi } from 'zustand/vanilla';
import type {
  Api,
  CallName,
  ImportCells,
  ImportReading,
  Reply,
  Returned,
  RowPut,
  Sent,
  ShopSettings,
  ShopView,
} from '../../../core/contract';
import type { Fault, Shop, TableName } from '../../../core/shop';
import { keyOf, type Path, type Place, setIn, within } from './place';

/** An edit that was not taken: what was typed, if anything was, and why. */
export interface Refusal {
  readonly text: string | null;
  readonly say: string;
}

export type Direction = 'undo' | 'redo';

/** What was just done, with the way back from it; stands only while that is still the last change. */
export interface Strip {
  readonly say: string;
  readonly offer: Direction;
  /** What `offer` would do, in the words of the services. */
  readonly change: string | null;
  readonly revision: number;
}

export interface ShopState {
  readonly view: ShopView | null;
  /** Why the shop could not be read; null while it is being read and once it is. */
  readonly unread: readonly Fault[] | null;
  readonly refusals: Readonly<Record<string, Refusal>>;
  readonly strip: Strip | null;
  /** Keys of the rows whose details are shown. */
  readonly open: ReadonlySet<string>;
  /** The key of what is to be shown and focused next. */
  readonly arrival: string | null;
}

export interface Edit {
  readonly path: Path;
  /** From the record as it stands when the edit's turn comes, to the record that is sent. */
  readonly change: (record: unknown) => unknown;
  /** What was typed, kept if the edit is refused. */
  readonly text?: string;
  /** Given, undoing is offered at once, and this says what was done. */
  readonly undo?: string;
}

export interface ShopStore extends StoreApi<ShopState> {
  read(): Promise<void>;
  /** Sends a changed record. Edits take turns, so a quick second one builds on the first. Resolves to: was it taken. */
  edit(place: Place, edit: Edit): Promise<boolean>;
  add(table: TableName, row: { readonly id: string }): Promise<Reply<ShopView>>;
  /** Puts rows into a table as one change, all or none; `say` names it: `Import 42 jobs`. */
  putMany(table: TableName, rows: readonly RowPut[], say: string): Promise<Reply<ShopView>>;
  /** What cells would put into a table; nothing is put in. */
  readImport(cells: ImportCells): Promise<Reply<ImportReading>>;
  remove(place: { readonly table: TableName; readonly id: string }, say: string): Promise<boolean>;
  /** Takes the last change of the shop back, or makes the last one taken back again, whichever seat made it. */
  goBack(direction: Direction): Promise<void>;
  closeStrip(): void;
  /** An earlier plan, or what a copy changed, for this shop; `say` is what was done, beside which undoing is offered. */
  take<K extends 'plan.use' | 'copy.adopt'>(call: K, sent: Sent<K>, say: string): Promise<Reply<ShopView>>;
  refuse(key: string, refusal: Refusal): void;
  /** Forgets the refusals of what `key` names and of everything in it. */
  forgive(key: string): void;
  /** Another shop in place of this one. */
  replace<K extends 'shop.import' | 'shop.reset'>(call: K, sent: Sent<K>): Promise<Reply<ShopView>>;
  setOpen(key: string, open: boolean): void;
  arriveAt(key: string | null): void;
  /** The same for a row however often it is renamed. */
  handle(key: string): number;
}

export function settingsOf(shop: Shop): ShopSettings {
  const { name, zone, horizonDays, planFrom, weights, walking, night } = shop;
  return { name, zone, horizonDays, planFrom, weights, walking, night };
}

const EMPTY: ShopState = { view: null, unread: null, refusals: {}, strip: null, open: new Set(), arrival: null };

export function createShopStore(api: Api): ShopStore {
  const store = createStore<ShopState>(() => EMPTY);
  const handles = new Map<string, number>();
  let handled = 0;
  let turn: Promise<unknown> = Promise.resolve();

  function inTurn<T>(work: () => Promise<T>): Promise<T> {
    const mine = turn.then(work);
    turn = mine;
    return mine;
  }

  async function ask<K extends CallName>(name: K, sent: Sent<K>): Promise<Reply<Returned<K>>> {
    try {
      return await api.call(name, sent);
    } catch (trouble) {
      const say = `The program did not answer (${trouble instanceof Error ? trouble.message : String(trouble)}). Try again; if that fails too, start it anew.`;
      return { ok: false, faults: [{ code: 'no-answer', at: [], say, level: 'error' }] };
    }
  }

  /** Two seats may answer out of order; an older shop never replaces a newer one. */
  function show(view: ShopView): void {
    const { view: shown, strip } = store.getState();
    if (shown !== null && view.revision < shown.revision) return;
    const isLast = strip?.revision === view.revision && strip.change === view.wayBack[strip.offer];
    store.setState({ view, unread: null, strip: isLast ? strip : null });
  }

  function offer(say: string, direction: Direction): void {
    const { view } = store.getState();
    if (view === null) return;
    const strip = { say, offer: direction, change: view.wayBack[direction], revision: view.revision };
    store.setState({ strip });
  }

  function recordAt(place: Place): unknown {
    const shop = store.getState().view?.shop;
    if (shop === undefined) return undefined;
    if (place.table === 'settings') return settingsOf(shop);
    return shop[place.table].find((row) => row.id === place.id);
  }

  function send(place: Place, record: unknown): Promise<Reply<ShopView>> {
    return place.table === 'settings'
      ? ask('shop.settings', record as ShopSettings)
      : ask('shop.put', { table: place.table, replaces: place.id, row: record });
  }

  function renamed(from: string, to: string): void {
    if (from === to) return;
    const moved = (key: string): string => (within(key, from) ? `${to}${key.slice(from.length)}` : key);
    const handle = handles.get(from);
    handles.delete(from);
    if (handle !== undefined) handles.set(to, handle);
    const { refusals, open } = store.getState();
    store.setState({
      refusals: Object.fromEntries(Object.entries(refusals).map(([key, refusal]) => [moved(key), refusal])),
      open: new Set([...open].map(moved)),
    });
  }

  const actions: Omit<ShopStore, keyof StoreApi<ShopState>> = {
    async read() {
      const reply = await ask('shop.read', null);
      if (reply.ok) show(reply.value);
      else store.setState({ unread: reply.faults });
    },

    edit: (place, { path, change, text, undo }) =>
      inTurn(async () => {
        const key = keyOf(place, path);
        const before = recordAt(place);
        if (before === undefined) {
          actions.refuse(key, { text: text ?? null, say: 'This row is no longer there; it was deleted or renamed.' });
          return false;
        }
        const after = change(before);
        const reply = await send(place, after);
        if (!reply.ok) {
          actions.refuse(key, { text: text ?? null, say: sentences(reply.faults) });
          return false;
        }
        actions.forgive(key);
        const id = place.table === 'settings' ? null : (after as { id: string }).id;
        if (place.table !== 'settings' && id !== null) renamed(keyOf(place), keyOf({ table: place.table, id }));
        show(reply.value);
        if (undo !== undefined) offer(undo, 'undo');
        return true;
      }),

    add: (table, row) =>
      inTurn(async () => {
        const reply = await ask('shop.put', { table, replaces: null, row });
        if (reply.ok) show(reply.value);
        return reply;
      }),

    putMany: (table, rows, say) =>
      inTurn(async () => {
        const reply = await ask('shop.putMany', { table, rows, say });
        if (reply.ok) show(reply.value);
        return reply;
      }),

    readImport: (cells) => ask('rows.read', cells),

    remove: (place, say) =>
      inTurn(async () => {
        const key = keyOf(place);
        const reply = await ask('shop.remove', { table: place.table, id: place.id });
        if (!reply.ok) {
          actions.refuse(key, { text: null, say: sentences(reply.faults) });
          return false;
        }
        actions.forgive(key);
        show(reply.value);
        offer(say, 'undo');
        return true;
      }),

    goBack: (direction) =>
      inTurn(async () => {
        const reply = await ask(`change.${direction}`, null);
        if (!reply.ok) {
          offer(`${direction === 'undo' ? 'Not undone.' : 'Not done again.'} ${sentences(reply.faults)}`, direction);
          return;
        }
        show(reply.value);
        // What was taken back is what can be made again, and the other way round.
        const { undo, redo } = reply.value.wayBack;
        if (direction === 'undo') offer(`Undone: ${redo}.`, 'redo');
        else offer(`Done again: ${undo}.`, 'undo');
      }),

    take: (call, sent, say) =>
      inTurn(async () => {
        const reply: Reply<ShopView> = await ask(call, sent);
        if (reply.ok) {
          show(reply.value);
          offer(say, 'undo');
        }
        return reply;
      }),

    closeStrip: () => store.setState({ strip: null }),

    refuse: (key, refusal) => store.setState(({ refusals }) => ({ refusals: { ...refusals, [key]: refusal } })),

    forgive: (whole) =>
      store.setState(({ refusals }) => {
        const kept = Object.entries(refusals).filter(([key]) => !within(key, whole));
        return { refusals: Object.fromEntries(kept) };
      }),

    replace: (call, sent) =>
      inTurn(async () => {
        const reply: Reply<ShopView> = await ask(call, sent);
        if (reply.ok) store.setState({ ...EMPTY, view: reply.value });
        return reply;
      }),

    setOpen: (key, open) =>
      store.setState((state) => {
        const next = new Set(state.open);
        if (open) next.add(key);
        else next.delete(key);
        return { open: next };
      }),

    arriveAt: (arrival) => store.setState({ arrival }),

    handle(key) {
      const before = handles.get(key);
      if (before !== undefined) return before;
      handles.set(key, ++handled);
      return handled;
    },
  };

  // A plan made, named or released leaves the shop and its revision as they are, but not the way back.
  const readAgain = (): void => void inTurn(actions.read);
  api.on('shop.changed', readAgain);
  api.on('plan.done', readAgain);

  return { ...store, ...actions };
}

/** An edit that puts `value` at `path` and leaves every other field as it is. */
export function putting(path: Path, value: unknown, text?: string): Edit {
  const change = (record: unknown): unknown => setIn(record, path, value);
  return text === undefined ? { path, change } : { path, change, text };
}

/** All that is wrong, as one text. */
export function sentences(faults: readonly Fault[]): string {
  return faults.map((fault) => fault.say).join(' ');
}
