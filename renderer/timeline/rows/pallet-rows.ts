import type { PlannedRun } from '../../../core/shop';
import { grouped, offOf, onOf, type PlanIndex } from '../plan-index';
import { type Row, rowOf } from './row';
import { attendancesOf, runItem } from './run-item';

/** Each pallet with its runs: from the start of loading to the end of unloading it is taken, and inside that it cuts. */
export function palletRows(index: PlanIndex): Row[] {
  const { plan, shop } = index.view;
  const runs = grouped(
    plan.runs.filter((run) => run.pallet !== null),
    (run) => run.pallet ?? '',
  );
  const known = new Map(shop.pallets.map((pallet) => [pallet.id, pallet]));
  // A pallet of the plan may have left the shop since.
  return [...new Set([...known.keys(), ...runs.keys()])].map((id) => {
    const pallet = known.get(id);
    return palletRow(index, id, pallet?.fixture ?? '', pallet?.name ?? '', runs.get(id) ?? []);
  });
}

function palletRow(index: PlanIndex, id: string, fixture: string, name: string, runs: readonly PlannedRun[]): Row {
  const items = runs.map((run) => runItem(index, run, 'machine'));
  const below = runs.length === 0 ? 'not used in this plan' : name === id ? '' : name;
  return rowOf({
    key: `pallet ${id}`,
    head: { name: id, aside: fixture, below, bad: null, kind: null },
    items,
    stays: runs.map((run, i) => {
      const { machineKind } = items[i]!;
      return { start: onOf(run), end: offOf(run), lane: 0, machineKind };
    }),
    marks: attendancesOf(runs).map(({ mark }) => mark),
  });
}
