import { useStore } from 'zustand';
import type { PlanState, PlanStore } from './plan-store';

/** A part of the plan's state, followed as it changes. */
export function usePlan<T>(store: PlanStore, pick: (state: PlanState) => T): T {
  return useStore(store, pick);
}
