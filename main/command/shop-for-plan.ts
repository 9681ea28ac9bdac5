import type { Plan, Shop } from '../../core/shop';
import { localAt } from '../../core/time';
import { demoShopOf, readShopFile } from './files';

/** The shop of a file; for `demo` the demo shop of the plan's own week. */
export async function shopFor(file: string, plan: Plan): Promise<Shop> {
  return file === 'demo' ? demoShopOf(localAt(plan.clock, plan.now)) : readShopFile(file);
}
