import { createStore, type StoreApi } from 'zustand/vanilla';
import type {
  Api,
  CallName,
  ComparedPlans,
  CopyView,
  LoggedChange,
  PlanProgress,
  PlanRef,
  PlanSummary,
  PlanView,
  Reply,
  Returned,
  Sent,
} from '../../core/contract';
import type { Fault } from '../../core/shop';
import { type Choice, type Pair, pairOf, type Side, withChosen } from './pair';

/** Two plans with what differs between them. */
export interface Compared extends ComparedPlans {
  readonly pair: Pair;
  readonly before: PlanView;
  readonly after: PlanView;
}

export interface CompareState {
  /** Null until they are read. */
  readonly copies: readonly CopyView[] | null;
  /** The plans of the shop, newest first; null until they are read. */
  readonly plans: readonly PlanSummary[] | null;
  /** What was changed in the shop, newest first. */
  readonly changes: readonly LoggedChange[];
  /** Chosen by hand; null: the usual two. */
  readonly chosen: Pair | null;
  readonly compared: Compared | null;
  /** Why the two could not be compared, or the lists not be read. */
  readonly faults: readonly Fault[];
  /** Copies still to be planned, the one being planned included. */
  readonly waiting: ReadonlySet<string>;
  /** How far the plan of a copy has come. */
  readonly progress: ReadonlyMap<string, PlanProgress>;
  /** Why something asked of a copy, or of a plan, was refused, by {@link keyOfRef}. */
  readonly refusals: ReadonlyMap<string, string>;
  /** Reads copies and plans and compares two of them; again whenever they change. */
  load(): Promise<void>;
  /** The same, if it was ever read. */
  reload(): void;
  choose(side: Side, ref: PlanRef): void;
  /** Both at once. */
  compare(pair: Pair): void;
  /** Makes a copy of the shop; its id, or null if it was refused. */
  make(name: string): Promise<string | null>;
  /** Names a copy, or an earlier plan. True if it was taken. */
  name(ref: PlanRef, name: string): Promise<boolean>;
  discard(copy: string): Promise<void>;
  /** Plans copies one after the other, each as long and with the same seed. */
  plan(copies: readonly string[], wish: { readonly seconds: number; readonly seed: number }): Promise<void>;
  /** Ends the planning of a copy, which keeps its best plan so far. */
  stop(copy: string): Promise<void>;
  refuse(ref: PlanRef, faults: readonly Fault[]): void;
}

export type CompareStore = StoreApi<CompareState>;

export function keyOfRef({ copy, plan }: PlanRef): string {
  return copy === null ? `plan/${plan ?? ''}` : `copy/${copy}`;
}

/** The state behind the screen "Compare" and the strip over a copy. It reads nothing before it is first asked to. */
export function createCompareStore(api: Api): CompareStore {
  let asked = 0;
  let reading: Promise<void> | null = null;
  let again = false;

  const store = createStore<CompareState>()((set, get) => {
    async function readLists(): Promise<void> {
      const [copies, plans, changes] = await Promise.all([
        api.call('copy.list', null),
        api.call('plan.list', null),
        api.call('change.list', null),
      ]);
      if (!copies.ok) set({ faults: copies.faults });
      else if (!plans.ok) set({ faults: plans.faults });
      else if (!changes.ok) set({ faults: changes.faults });
      else set({ copies: copies.value, plans: plans.value, changes: changes.value, faults: [] });
    }

    function planAt({ copy, plan }: PlanRef): Promise<Reply<PlanView | null>> {
      if (copy === null) return plan === null ? api.call('plan.current', null) : api.call('plan.read', { id: plan });
      const sent = { copy, call: 'plan.current', sent: null };
      // The services answer a copy's call as they answer it of the shop.
      return api.call('copy.call', sent) as Promise<Reply<PlanView | null>>;
    }

    async function compareNow(): Promise<void> {
      const mine = ++asked;
      const pair = pairOf(choiceOf(get()), get().chosen);
      if (pair === null) {
        set({ compared: null });
        return;
      }
      const [said, before, after] = await Promise.all([
        api.call('plan.compare', pair),
        planAt(pair.before),
        planAt(pair.after),
      ]);
      if (mine !== asked) return;
      const refused = [said, before, after].flatMap((reply) => (reply.ok ? [] : reply.faults));
      if (!said.ok || !before.ok || !after.ok || before.value === null || after.value === null) {
        set({ compared: null, faults: refused });
        return;
      }
      set({ compared: { ...said.value, pair, before: before.value, after: after.value }, faults: [] });
    }

    /** A refusal is said where it was asked. */
    async function ask<K extends CallName>(ref: PlanRef, call: K, sent: Sent<K>): Promise<Reply<Returned<K>>> {
      const reply = await api.call(call, sent);
      get().refuse(ref, reply.ok ? [] : reply.faults);
      return reply;
    }

    return {
      copies: null,
      plans: null,
      changes: [],
      chosen: null,
      compared: null,
      faults: [],
      waiting: new Set(),
      progress: new Map(),
      refusals: new Map(),

      async load() {
        if (reading !== null) {
          // What changed since it began is read once more at its end.
          again = true;
          return reading;
        }
        reading = (async () => {
          do {
            again = false;
            await readLists();
            await compareNow();
          } while (again);
        })().finally(() => {
          reading = null;
        });
        return reading;
      },

      reload() {
        if (get().copies !== null || reading !== null) void get().load();
      },

      choose(side, ref) {
        set({ chosen: withChosen(choiceOf(get()), get().chosen, side, ref) });
        void compareNow();
      },

      compare(chosen) {
        set({ chosen });
        void compareNow();
      },

      async make(name) {
        const before = new Set(get().copies?.map(({ id }) => id));
        const reply = await api.call('copy.make', { name });
        if (!reply.ok) {
          set({ faults: reply.faults });
          return null;
        }
        set({ copies: reply.value });
        return reply.value.find(({ id }) => !before.has(id))?.id ?? null;
      },

      async name(ref, name) {
        if (ref.copy !== null) {
          const reply = await ask(ref, 'copy.name', { id: ref.copy, name });
          if (reply.ok) set({ copies: reply.value });
          return reply.ok;
        }
        if (ref.plan === null) return false;
        const reply = await ask(ref, 'plan.name', { id: ref.plan, name });
        if (reply.ok) set({ plans: reply.value });
        return reply.ok;
      },

      async discard(copy) {
        const reply = await ask({ copy, plan: null }, 'copy.discard', { id: copy });
        if (reply.ok) set({ copies: reply.value });
        void compareNow();
      },

      async plan(copies, wish) {
        const fresh = copies.filter((id) => !get().waiting.has(id));
        set({ waiting: new Set([...get().waiting, ...fresh]) });
        for (const id of fresh) get().refuse({ copy: id, plan: null }, []);
        const reply = await api.call('copy.plan', { ids: fresh, ...wish });
        if (!reply.ok) for (const id of fresh) failed(id, reply.faults);
      },

      async stop(copy) {
        await ask({ copy, plan: null }, 'copy.call', { copy, call: 'plan.stop', sent: null });
      },

      refuse(ref, faults) {
        const refusals = new Map(get().refusals);
        if (faults.length === 0) refusals.delete(keyOfRef(ref));
        else refusals.set(keyOfRef(ref), faults.map((fault) => fault.say).join(' '));
        set({ refusals });
      },
    };
  });

  function ended(copy: string): void {
    const waiting = new Set(store.getState().waiting);
    const progress = new Map(store.getState().progress);
    waiting.delete(copy);
    progress.delete(copy);
    store.setState({ waiting, progress });
  }

  function failed(copy: string, faults: readonly Fault[]): void {
    ended(copy);
    store.getState().refuse({ copy, plan: null }, faults);
  }

  for (const change of ['copy.changed', 'shop.changed', 'plan.done'] as const) api.on(change, store.getState().reload);
  api.on('copy.said', ({ copy, event, data }) => {
    if (event === 'plan.progress') {
      const progress = new Map(store.getState().progress).set(copy, data as PlanProgress);
      store.setState({ progress });
    } else if (event === 'plan.done') ended(copy);
    else if (event === 'plan.failed') failed(copy, (data as { faults: readonly Fault[] }).faults);
  });
  return store;
}

export function choiceOf({ copies, plans }: CompareState): Choice {
  return { copies: copies ?? [], plans: plans ?? [] };
}
