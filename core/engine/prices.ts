import { problemOf } from '../problem';
import type { Shop } from '../shop';
import { Allocation } from './allocate';

/**
 * What one more place or pallet would add to the most hours any plan can expect tonight, by the linear program's dual
 * prices: hours by `place cell CELL`, `place machine M1`, `pallet VISE4`. Hours are pooled there, so a plan of whole runs
 * often gains less, and sometimes more where the price holds in the other direction only.
 */
export async function tonightPrices(shop: Shop, at: string, seconds: number): Promise<ReadonlyMap<string, number>> {
  return new Allocation(problemOf(shop, at)).prices(seconds);
}
