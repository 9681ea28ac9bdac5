import { expect } from 'vitest';
import type { Why } from '../../../core/contract';
import { whyRun } from '../../../core/explain';
import { referee } from '../../../core/referee';
import type { Plan, Shop, ShopInput } from '../../../core/shop';
import { planOf } from '../measure/fixture';
import { shopWith } from './gaps-fixture';

// Own instances throughout: Anna is in the shop from 06:00 to 14:00, her break is from 10:00 to 10:30. Three pallets carry
// fixture F. The plans are made by hand, and each is refereed before it is asked about.

type Runs = Parameters<typeof planOf>[0];
type More = Parameters<typeof planOf>[1] & { care?: Plan['care'] };

/** A plan made by hand that the referee passes, at its true cost. */
export function legal(shop: Shop, runs: Runs, more: More = {}): Plan {
  const bare = { ...planOf(runs, more), care: more.care ?? [] };
  const plan = { ...bare, cost: referee(shop, bare).cost };
  expect(referee(shop, plan).breaches).toEqual([]);
  return plan;
}

export function why(parts: Partial<ShopInput>, run: string, runs: Runs, more: More = {}): Why {
  const shop = shopWith({ horizonDays: 2, ...parts });
  return whyRun(shop, legal(shop, runs, more), run);
}

export const CANNOT = 'With every other run where it is, it cannot start earlier.';

export const AHEAD = {
  run: 'B/10/1',
  machine: 'M1',
  pallet: 'P2',
  load: ['Anna', '06:00', '06:20'],
  cut: ['06:20', '11:20'],
  unload: ['Anna', '11:20', '11:30'],
} as const;
