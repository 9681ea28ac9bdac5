import type { DeskChange, Lock } from '../../core/contract';
import { type FloorEntry, runsOf, type Shop } from '../../core/shop';
import { refusal } from '../refusal';
import { idOfRow, withRow } from './shop-edits';

/** The shop with a change by hand in it; throws a Refusal where a run, a pallet or the rush job can't be. */
export function withChange(shop: Shop, { locks, withdraw, rush }: DeskChange): Shop {
  const rushed = rush === null ? shop : withRow(shop, 'jobs', null, rush);
  return withdraw.reduce(withoutPallet, locks.reduce(withLock, rushed));
}

/** What undo calls it. */
export function changeWords({ locks, withdraw, rush }: DeskChange): string {
  const parts = [
    ...(rush === null ? [] : [`Put in rush job ${idOfRow(rush)}`]),
    ...withdraw.map((pallet) => `Withdraw pallet ${pallet}`),
    ...locks.map(lockWords),
  ];
  return parts.length <= 2 ? parts.join(', ') : `${parts[0]} and ${parts.length - 1} more`;
}

/** The runs whose new places are of interest. */
export function runsOfChange(shop: Shop, { locks, rush }: DeskChange): string[] {
  const held = locks.map(({ run }) => run);
  if (rush === null) return held;
  const id = idOfRow(rush);
  return [...held, ...runsOf(shop).flatMap((run) => (run.job.id === id ? [run.id] : []))];
}

function lockWords({ run, machine, pallet, start, after }: Lock): string {
  const to = [
    ...(machine === null ? [] : [machine]),
    ...(start === null ? [] : [start.slice(11)]),
    ...(pallet === null ? [] : [`pallet ${pallet}`]),
    ...(after === null ? [] : [`after ${after}`]),
  ];
  return to.length === 0 ? `Unlock ${run}` : `Lock ${run} at ${to.join(', ')}`;
}

function withLock(shop: Shop, { run, machine, pallet, start, after }: Lock): Shop {
  const on = shop.floor.find((entry) => entry.run === run);
  if (on !== undefined && on.state !== 'locked') {
    throw refusal('on-the-floor', `${run} is ${on.state} on the floor; what has begun is not moved by hand here.`);
  }
  const others = shop.floor.filter((entry) => entry.run !== run);
  if (machine === null && pallet === null && start === null && after === null) return { ...shop, floor: others };
  if (!runsOf(shop).some(({ id }) => id === run)) {
    throw refusal('no-such-run', `There is no run ${run} in the shop's jobs any more; plan again and choose another.`);
  }
  const entry: FloorEntry = { run, state: 'locked', machine, pallet, start, end: null, after };
  return { ...shop, floor: [...others, entry] };
}

function withoutPallet(shop: Shop, id: string): Shop {
  if (!shop.pallets.some((pallet) => pallet.id === id)) {
    throw refusal('no-such-row', `There is no ${id} in pallets any more; read the table again.`);
  }
  return { ...shop, pallets: shop.pallets.map((pallet) => (pallet.id === id ? { ...pallet, inUse: false } : pallet)) };
}
