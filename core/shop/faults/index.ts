import type { Fault } from '../fault';
import type { Shop } from '../schema';
import { floorFaults } from './floor';
import { frameOf } from './frame';
import { hourFaults } from './hours';
import { nameFaults } from './names';
import { plantFaults } from './plant';
import { toolFaults } from './tools';
import { trustFaults } from './trust';
import { workFaults } from './work';

/**
 * What in a well-formed shop contradicts itself or cannot be planned as of `at`, a local time of the shop: names that
 * name nothing, hours that overlap, work nobody and no machine can take, tools that do not last, a floor that cannot be. Errors stop planning.
 */
export function faultsOf(shop: Shop, at: string): Fault[] {
  const frame = frameOf(shop, at);
  return [plantFaults, nameFaults, hourFaults, workFaults, toolFaults, trustFaults, floorFaults].flatMap((check) =>
    check(frame),
  );
}
