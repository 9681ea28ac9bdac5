import { createStore, type StoreApi } from 'zustand/vanilla';
import type { Api, SeatSettings } from '../../core/contract';

export interface SeatState {
  readonly settings: SeatSettings;
  /** Why the last change was not kept. */
  readonly refused: string | null;
}

export interface SeatStore extends StoreApi<SeatState> {
  read(): Promise<void>;
  put(change: Partial<SeatSettings>): Promise<void>;
}

/** Choices of this seat; until they are read, what needs no choosing. */
export function createSeatStore(api: Api): SeatStore {
  const store = createStore<SeatState>(() => ({ settings: { theme: 'system', planSeconds: 10 }, refused: null }));
  return {
    ...store,
    async read() {
      const reply = await api.call('seat.read', null);
      if (reply.ok) store.setState({ settings: reply.value });
    },
    async put(change) {
      // Read first: the plan's screen changes the seat too.
      const now = await api.call('seat.read', null);
      const reply = now.ok ? await api.call('seat.put', { ...now.value, ...change }) : now;
      if (reply.ok) store.setState({ settings: reply.value, refused: null });
      else store.setState({ refused: reply.faults.map((fault) => fault.say).join(' ') });
    },
  };
}
