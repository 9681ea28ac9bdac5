import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Api, Purchase, TonightView } from '../../core/contract';
import type { Fault } from '../../core/shop';
import type { PlanStore } from '../plan';

/** How far the list of what would buy more has come. */
export interface Buying {
  readonly purchases: readonly Purchase[];
  /** Things still to be worked out; null before the first is. */
  readonly left: number | null;
  readonly state: 'not-asked' | 'running' | 'done';
}

export interface TonightState {
  /** The plan asked for; null before the first. */
  readonly id: number | null;
  /** What tonight makes of it; null while it is worked out. */
  readonly view: TonightView | null;
  readonly faults: readonly Fault[];
  readonly buying: Buying;
  /** Keys of what has been seen to. */
  readonly checked: ReadonlySet<string>;
  /** Hours that supplies still last, as typed, by `machine/supply`. */
  readonly supplies: ReadonlyMap<string, string>;
  readonly releasing: boolean;
  read(id: number): Promise<void>;
  buy(visitAt: string | null): Promise<void>;
  tick(key: string, done: boolean): void;
  supply(key: string, hours: string): void;
  release(): Promise<void>;
}

export type TonightStore = StoreApi<TonightState>;

const NOT_ASKED: Buying = { purchases: [], left: null, state: 'not-asked' };

/** The state behind the screen "Tonight". */
export function createTonightStore(api: Api, planStore: PlanStore): TonightStore {
  const store = createStore<TonightState>()((set, get) => ({
    id: null,
    view: null,
    faults: [],
    buying: NOT_ASKED,
    checked: new Set(),
    supplies: new Map(),
    releasing: false,

    async read(id) {
      if (get().id === id) return;
      const checked = new Set(planStore.getState().view?.released?.checked ?? []);
      set({ id, view: null, faults: [], buying: NOT_ASKED, checked });
      const reply = await api.call('tonight.read', { id });
      // The plan may have been made anew meanwhile.
      if (get().id !== id) return;
      if (reply.ok) set({ view: reply.value });
      else set({ faults: reply.faults, id: null });
    },

    async buy(visitAt) {
      const { id } = get();
      if (id === null) return;
      set({ buying: { purchases: [], left: null, state: 'running' }, faults: [] });
      const reply = await api.call('tonight.buy', { id, visitAt });
      if (!reply.ok) set({ faults: reply.faults, buying: NOT_ASKED });
    },

    tick(key, done) {
      const checked = new Set(get().checked);
      if (done) checked.add(key);
      else checked.delete(key);
      set({ checked });
    },

    supply(key, hours) {
      set({ supplies: new Map(get().supplies).set(key, hours) });
    },

    async release() {
      const { id, checked } = get();
      if (id === null) return;
      set({ releasing: true, faults: [] });
      const reply = await api.call('plan.release', { id, checked: [...checked] });
      set({ releasing: false });
      if (reply.ok) await planStore.getState().load();
      else set({ faults: reply.faults });
    },
  }));

  api.on('tonight.bought', ({ id, purchase, left }) => {
    const { buying } = store.getState();
    if (store.getState().id !== id || buying.state !== 'running') return;
    const purchases = [...buying.purchases, purchase].sort((a, b) => b.hours - a.hours);
    store.setState({ buying: { ...buying, purchases, left } });
  });
  api.on('tonight.done', ({ id, say }) => {
    if (store.getState().id !== id) return;
    const faults: Fault[] = say === null ? [] : [{ code: 'buying', at: [], say, level: 'warning' }];
    store.setState({ buying: { ...store.getState().buying, state: 'done', left: 0 }, faults });
  });
  return store;
}
