import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Api, DeskChange, Lock, Trial } from '../../core/contract';
import type { Fault } from '../../core/shop';
import type { RushDraft } from './rush-job';

/** A change that is being tried and, once it is known, what would come of it. */
export interface DeskState {
  readonly change: DeskChange | null;
  /** Null while it is worked out. */
  readonly trial: Trial | null;
  /** A change is on its way to the shop. */
  readonly taking: boolean;
  /** Why the change was refused. */
  readonly faults: readonly Fault[];
  /** A rush job as far as it is typed in; null: not begun. */
  readonly draft: RushDraft | null;
  /** Keeps what is typed of a rush job, whatever list or screen is looked at meanwhile. */
  write(draft: RushDraft): void;
  /** Works out what would come of a change; nothing is stored. `seconds` of search; 0 only mends the plan. */
  try(change: DeskChange, seconds: number): Promise<void>;
  /** Makes the change that is being tried, with the plan that was shown. Resolves to: was it taken. */
  take(): Promise<boolean>;
  /** Makes a change at once, with the plan that was shown for it or else one that is tried now. */
  apply(change: DeskChange): Promise<boolean>;
  /** Forgets what is being tried. */
  drop(): void;
}

export type DeskStore = StoreApi<DeskState>;

/**
 * Seconds of search for a change by hand: little enough to follow the hand. Measured on the demo, locks two hours later:
 * without it 599 weighted hours late in the middle of five, with it 438; 3 s of it bring 403.
 */
export const HAND_SECONDS = 0.1;

/** The state behind changes by hand. No React in it. */
export function createDeskStore(api: Api): DeskStore {
  return createStore<DeskState>()((set, get) => ({
    change: null,
    trial: null,
    taking: false,
    faults: [],
    draft: null,

    write(draft) {
      set({ draft });
    },

    async try(change, seconds) {
      set({ change, trial: null, faults: [] });
      const reply = await api.call('desk.try', { change, seconds });
      // A hand that moves on has asked again meanwhile.
      if (get().change !== change) return;
      if (!reply.ok) set({ trial: null, faults: reply.faults });
      else if (reply.value !== null) set({ trial: reply.value });
    },

    async take() {
      const { change, trial, taking } = get();
      if (change === null || taking) return false;
      set({ taking: true });
      const reply = await api.call('desk.take', { change, trial: trial?.key ?? null });
      if (!reply.ok) set({ taking: false, faults: reply.faults });
      else
        set({ taking: false, change: null, trial: null, faults: [], ...(change.rush === null ? {} : { draft: null }) });
      return reply.ok;
    },

    async apply(change) {
      const { change: shown, trial, taking } = get();
      if (taking) return false;
      if (trial === null || JSON.stringify(shown) !== JSON.stringify(change)) {
        await get().try(change, HAND_SECONDS);
        if (get().change !== change || get().trial === null) return false;
      }
      return get().take();
    },

    drop() {
      set({ change: null, trial: null, faults: [] });
    },
  }));
}

/** A change of nothing but locks. */
export function locking(...locks: Lock[]): DeskChange {
  return { locks, withdraw: [], rush: null };
}

/** Why the change in hand was refused, if it was one of the locks of `run`; null if not, or as long as it may be taken. */
export function refusalOf({ change, faults }: DeskState, run: string): string | null {
  const isAbout = change?.locks.some((lock) => lock.run === run) ?? false;
  return isAbout && faults.length > 0 ? faults.map(({ say }) => say).join(' ') : null;
}
