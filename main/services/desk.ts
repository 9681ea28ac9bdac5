import { isDeepStrictEqual } from 'node:util';
import type { DeskChange, Trial } from '../../core/contract';
import { type Fault, faultsOf, type Plan, type Shop } from '../../core/shop';
import { localAt } from '../../core/time';
import type { Present } from '../clock';
import { Refusal, refusal } from '../refusal';
import type { Trials } from '../solver';
import type { Store, StoredShop } from '../store';
import { changeWords, runsOfChange, withChange } from './desk-edits';
import type { PlanViews } from './plan-views';

/** Changes by hand: tried first, then made, with the plan that was seen. */
export interface Desk {
  /** Null if a newer change was asked about meanwhile. */
  try(change: DeskChange, seconds: number): Promise<Trial | null>;
  take(change: DeskChange, trial: number | null): Promise<StoredShop>;
}

/** The same change gives the same plan. */
const SEED = 1;

/** Trials kept to be taken: a hand that moves on may drop where it was a moment ago. */
const KEPT = 8;

interface KeptTrial {
  readonly key: number;
  readonly change: DeskChange;
  readonly revision: number;
  readonly plan: Plan;
}

export function deskWith(store: Store, views: PlanViews, trials: Trials, present: Present): Desk {
  let keys = 0;
  const kept: KeptTrial[] = [];

  return {
    async try(change, seconds) {
      const { shop: base, revision } = await store.readShop();
      const current = await views.current();
      if (current === null) throw refusal('no-plan', 'There is no plan yet to try this on. Press Plan first.');
      const released = await store.readPlan('released').catch(() => null);
      const shop = withChange(base, change);
      // A lock is put into the plan that is looked at; a job that comes in now can't be cut before now.
      const { clock, now } = current.plan;
      const at = shop.planFrom ?? (change.rush === null ? localAt(clock, now) : present(shop.zone));
      refuseFaulty(shop, at);
      const before = { shop: current.shop, plan: current.plan, report: current.report };
      const held = runsOfChange(shop, change);
      const found = await trials.try({
        ...{ shop, at, seconds, seed: SEED, before, held },
        released: released?.plan ?? null,
        hasNewWork: change.rush !== null,
      });
      if (found === null) return null;
      const key = ++keys;
      kept.push({ key, change, revision, plan: found.plan });
      if (kept.length > KEPT) kept.shift();
      return { key, ...found.trial };
    },

    async take(change, trial) {
      const found = kept.find(({ key }) => key === trial);
      const before = await store.readShop();
      const stored = await store.changeShop(changeWords(change), (shop) => withChange(shop, change));
      const isAsTried = found?.revision === before.revision && isDeepStrictEqual(found.change, change);
      if (found !== undefined && isAsTried && stored.revision === before.revision + 1) {
        const made = present(stored.shop.zone);
        await store.addPlan({ plan: found.plan, of: stored, made, say: 'Plan', joins: stored.change });
      }
      return stored;
    },
  };
}

function refuseFaulty(shop: Shop, at: string): void {
  const errors: Fault[] = faultsOf(shop, at).filter((fault) => fault.level === 'error');
  if (errors.length > 0) throw new Refusal(errors);
}
