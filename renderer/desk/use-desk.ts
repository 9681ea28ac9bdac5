import { useStore } from 'zustand';
import type { DeskState, DeskStore } from './desk-store';

/** A part of the state behind changes by hand, followed as it changes. */
export function useDesk<T>(store: DeskStore, pick: (state: DeskState) => T): T {
  return useStore(store, pick);
}
