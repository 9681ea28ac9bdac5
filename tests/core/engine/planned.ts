import { type EngineOptions, planShop } from '../../../core/engine';
import type { Plan, Shop } from '../../../core/shop';

/** Steps, not seconds, end the search, so that a test means the same on every machine. */
export function planned(shop: Shop, at: string, steps: number, more: Partial<EngineOptions> = {}): Promise<Plan> {
  let tick = 0;
  return planShop(shop, { at, seconds: Number.POSITIVE_INFINITY, steps, seed: 1, clock: () => tick++, ...more });
}
