import type { ShopView } from '../../../core/contract';
import type { Fault } from '../../../core/shop';
import { keyOfFault, within } from './place';

export interface KeyedFault {
  readonly key: string;
  readonly fault: Fault;
}

const known = new WeakMap<ShopView, readonly KeyedFault[]>();
const NONE: readonly KeyedFault[] = [];

/** The faults of a shop by the key of what they are about; the same list every time for the same view. */
export function keyedFaults(view: ShopView | null): readonly KeyedFault[] {
  if (view === null) return NONE;
  const before = known.get(view);
  if (before !== undefined) return before;
  const keyed = view.faults.map((fault) => ({ key: keyOfFault(view.shop, fault), fault }));
  known.set(view, keyed);
  return keyed;
}

/** The faults of what `whole` names and of everything in it. */
export function faultsWithin(view: ShopView | null, whole: string): readonly KeyedFault[] {
  return keyedFaults(view).filter(({ key }) => within(key, whole));
}
