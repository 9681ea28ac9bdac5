import type { Gap } from '../../../core/contract';
import type { Machine, PlannedRun, ToolCare } from '../../../core/shop';
import { grouped, type PlanIndex } from '../plan-index';
import { REASON_WORDS } from '../words';
import { type Item, type MachineKind, type Row, rowOf } from './row';
import { attendancesOf, runItem } from './run-item';

const KIND_WORDS: Readonly<Record<MachineKind, string>> = {
  mill: 'mill',
  grind: 'grind',
  'mill-grind': 'mill and grind',
  bench: 'bench',
};

/** Each machine with its runs, the gaps between them and the attendances to its tools. */
export function machineRows(index: PlanIndex): Row[] {
  const { plan, report, shop } = index.view;
  const runs = grouped(plan.runs, (run) => run.machine);
  const cares = grouped(plan.care, (care) => care.machine);
  const gaps = new Map(report.machines.map((machine) => [machine.machine, machine.gaps]));
  return shop.machines
    .filter((machine) => machine.inUse)
    .map((machine) => {
      const [own, care] = [runs.get(machine.id) ?? [], cares.get(machine.id) ?? []];
      return machineRow(index, machine, own, care, gaps.get(machine.id) ?? []);
    });
}

function machineRow(
  index: PlanIndex,
  { id, name, kind }: Machine,
  runs: readonly PlannedRun[],
  cares: readonly ToolCare[],
  gaps: readonly Gap[],
): Row {
  const items: Item[] = [
    ...cares.map(({ start, end }) => ({ kind: 'care' as const, machine: id, start, end })),
    ...runs.map((run) => runItem(index, run)),
    ...gaps.map(({ reason, start, end }) => ({
      kind: 'gap' as const,
      machine: id,
      reason,
      start,
      end,
      label: reason === 'nothing-due' ? '' : REASON_WORDS[reason],
    })),
  ];
  return rowOf({
    key: `machine ${id}`,
    head: { name: id, aside: KIND_WORDS[kind], below: name === id ? '' : name, bad: null, kind },
    machine: id,
    items,
    marks: attendancesOf(runs).map(({ mark }) => mark),
  });
}
