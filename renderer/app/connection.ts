import { createStore, type StoreApi } from 'zustand/vanilla';

/** `lost`: there was a connection, or the first try failed; it is tried again. */
export type Connection = 'connecting' | 'up' | 'lost';

export type ConnectionStore = StoreApi<{ readonly connection: Connection }>;

export function createConnectionStore(connection: Connection): ConnectionStore {
  return createStore(() => ({ connection }));
}
