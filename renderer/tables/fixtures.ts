import type { Shop } from '../../core/shop';

/** Fixtures that some pallet carries or some operation asks for. */
export function knownFixtures(shop: Shop): string[] {
  const asked = shop.jobs.flatMap((job) => job.route.map((operation) => operation.fixture));
  const carried = shop.pallets.map((pallet) => pallet.fixture);
  return [...new Set([...carried, ...asked.filter((fixture) => fixture !== null)])].sort();
}
