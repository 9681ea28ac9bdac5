import type { PlanView } from '../../core/contract';
import { reportOn } from '../../core/explain';
import type { Shop } from '../../core/shop';
import { refusal } from '../refusal';
import type { Store, StoredPlan } from '../store';

/** Stored plans with their reports. */
export interface PlanViews {
  /** Null if there is none. */
  current(): Promise<PlanView | null>;
  /** Throws a Refusal if there is none of that number. */
  read(id: number): Promise<PlanView>;
}

type Kept = Omit<PlanView, 'outdated' | 'released' | 'name'>;

/** The last one is kept, because several screens ask for it after each change. */
export function planViewsOf(store: Store): PlanViews {
  let last: Kept | null = null;
  async function viewOf(stored: StoredPlan): Promise<PlanView> {
    const { shop, revision } = await store.readShop();
    const { id, made, plan, name, released } = stored;
    if (last?.id !== id || last.made !== made)
      last = { id, made, plan, shop: stored.shop, report: reportOn(stored.shop, plan) };
    const outdated = stored.revision !== revision && !isSameShop(stored.shop, shop);
    return { ...last, name, outdated, released };
  }
  return {
    async current() {
      const stored = await store.readPlan('current');
      return stored === null ? null : viewOf(stored);
    },
    async read(id) {
      const stored = await store.readPlan(id);
      if (stored === null) throw refusal('no-such-plan', `There is no plan ${id}; choose one of the list.`);
      return viewOf(stored);
    },
  };
}

/** After an undo the shop may be what it was under a number of its own. Both come through the schema, fields in one order. */
export function isSameShop(a: Shop, b: Shop): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
