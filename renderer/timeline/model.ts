import type { Gap, IdleReason } from '../../core/contract';
import {
  type AttendanceRole,
  type Machine,
  mostRepeatMinutes,
  type PlannedRun,
  type RunNeed,
  type ToolCare,
} from '../../core/shop';
import { type Clock, type Interval, intersect, union } from '../../core/time';
import { holdOf, jobOf, offOf, onOf, type PlanIndex, personName } from './plan-index';
import type { Selection } from './selection';
import { REASON_WORDS } from './words';

/** What the timeline draws, still in minutes: worked out once per plan, not per frame. */
export interface TimelineModel {
  readonly clock: Clock;
  readonly machines: readonly MachineRow[];
  readonly people: readonly PersonRow[];
  readonly presence: readonly PresenceBand[];
  /** The furthest one can pan. */
  readonly limits: Interval;
  /** From the plan's moment until the last run is off or tonight is over. */
  readonly busy: Interval;
  readonly tonight: Interval | null;
}

export type MachineKind = Machine['kind'];

export interface MachineRow {
  readonly id: string;
  readonly name: string;
  readonly kind: MachineKind;
  /** Runs and gaps, in order of time; one machine does one thing at a time. */
  readonly items: readonly Item[];
  readonly marks: readonly Mark[];
}

export type Item = RunItem | GapItem | CareItem;

export interface RunItem extends Interval {
  readonly kind: 'run';
  readonly run: string;
  readonly job: string;
  readonly late: boolean;
  readonly hold: Interval | null;
  /** Loading and unloading on the table, in which the machine stands. */
  readonly table: readonly Interval[];
  /** From its end without any repeat to its end with every one; null where it has none. */
  readonly spread: Interval | null;
  /** What may be written on the bar, longest first. */
  readonly labels: readonly string[];
}

export interface GapItem extends Interval {
  readonly kind: 'gap';
  readonly machine: string;
  readonly reason: IdleReason;
  readonly label: string;
}

/** An attendance to the tools of a machine, which stands meanwhile. */
export interface CareItem extends Interval {
  readonly kind: 'care';
  readonly machine: string;
}

/** An attendance. */
export interface Mark extends Interval {
  readonly role: AttendanceRole | 'care';
  readonly selection: Selection;
}

export interface PersonRow {
  readonly id: string;
  readonly name: string;
  readonly present: readonly Interval[];
  readonly breaks: readonly Interval[];
  readonly marks: readonly Mark[];
}

/** Who is in the shop; nobody means unattended. */
interface PresenceBand extends Interval {
  readonly people: readonly string[];
}

/** Kept before the plan's moment, so that "now" does not stick to the edge. */
const LEAD_IN_MIN = 120;

export function modelOf(index: PlanIndex): TimelineModel {
  const { plan, report, shop } = index.view;
  const start = Math.min(plan.now, ...plan.runs.map(onOf)) - LEAD_IN_MIN;
  const end = Math.max(plan.now + 60, report.tonight?.end ?? plan.now, ...plan.runs.map(offOf)) + 60;
  const busy = { start: plan.now, end: Math.min(end, plan.horizon) };
  const gaps = new Map(report.machines.map((machine) => [machine.machine, machine.gaps]));
  return {
    clock: plan.clock,
    machines: shop.machines
      .filter((machine) => machine.inUse)
      .map((machine) => machineRow(index, machine, gaps.get(machine.id) ?? [])),
    people: report.people.map((person) => ({
      id: person.person,
      name: personName(index, person.person),
      present: person.present,
      breaks: person.breaks,
      marks: [...marksOf(plan.runs), ...careMarks(plan.care)].flatMap(({ mark, who }) =>
        who === person.person ? [mark] : [],
      ),
    })),
    presence: presenceOf(index),
    limits: { start, end: plan.horizon },
    busy,
    tonight: report.tonight,
  };
}

function machineRow(index: PlanIndex, machine: Machine, gaps: readonly Gap[]): MachineRow {
  const own = index.view.plan.runs.filter((run) => run.machine === machine.id);
  const onTable = machine.places === 0 && machine.cell === null && machine.kind !== 'bench';
  const care = index.view.plan.care.filter((one) => one.machine === machine.id);
  const items: Item[] = [
    ...care.map(({ start, end }): CareItem => ({ kind: 'care', machine: machine.id, start, end })),
    ...own.map((run) => runItem(index, run, onTable)),
    ...gaps.map(
      (gap): GapItem => ({
        kind: 'gap',
        machine: machine.id,
        reason: gap.reason,
        start: gap.start,
        end: gap.end,
        label: gap.reason === 'nothing-due' ? '' : REASON_WORDS[gap.reason],
      }),
    ),
  ];
  return {
    id: machine.id,
    name: machine.name === machine.id ? '' : machine.name,
    kind: machine.kind,
    items: items.sort((a, b) => a.start - b.start),
    marks: marksOf(own).map(({ mark }) => mark),
  };
}

function runItem(index: PlanIndex, run: PlannedRun, onTable: boolean): RunItem {
  const need = index.needs.get(run.run);
  const job = jobOf(run.run);
  const late = index.late.has(job);
  const head = late ? `${job} late` : job;
  const op = need === undefined ? '' : `op ${need.operation.id}`;
  const parts = need === undefined ? '' : `${need.parts} ${need.parts === 1 ? 'part' : 'parts'}`;
  return {
    kind: 'run',
    run: run.run,
    job,
    late,
    start: run.start,
    end: run.end,
    hold: holdOf(index, run),
    table: onTable ? [run.load, run.unload].filter((attendance) => attendance !== null) : [],
    spread: need === undefined ? null : spreadOf(need, run),
    labels: [`${head}, ${op}, ${parts}`, `${head}, ${op}`, head, job],
  };
}

function marksOf(runs: readonly PlannedRun[]): { mark: Mark; who: string }[] {
  return runs.flatMap((run) =>
    (['load', 'check', 'work', 'unload'] as const).flatMap((role) => {
      const attendance = run[role];
      if (attendance === null) return [];
      const selection = { kind: 'run' as const, run: run.run };
      const mark = { role, selection, start: attendance.start, end: attendance.end };
      return [{ mark, who: attendance.person }];
    }),
  );
}

function careMarks(cares: readonly ToolCare[]): { mark: Mark; who: string }[] {
  return cares.map(({ machine, person, start, end }) => ({
    mark: { role: 'care', selection: { kind: 'care', machine, start }, start, end },
    who: person,
  }));
}

/** How much sooner and later the run may end by its checks alone. */
function spreadOf(need: RunNeed, run: PlannedRun): Interval | null {
  const most = mostRepeatMinutes(need.operation.checks);
  if (most === 0) return null;
  return { start: run.end - need.repeats, end: run.end - need.repeats + most };
}

function presenceOf(index: PlanIndex): PresenceBand[] {
  const { report } = index.view;
  return report.stretches.flatMap((stretch) => {
    if (!stretch.attended) return [{ start: stretch.start, end: stretch.end, people: [] }];
    const inside = report.people.map((person) => ({
      name: personName(index, person.person),
      present: intersect(person.present, [stretch]),
    }));
    const cuts = [...new Set(inside.flatMap((p) => p.present.flatMap((i) => [i.start, i.end])))].sort((a, b) => a - b);
    return cuts.slice(1).map((end, i) => {
      const start = cuts[i] ?? stretch.start;
      const there = inside.filter((p) => p.present.some((i) => i.start <= start && i.end >= end));
      return { start, end, people: there.map((p) => p.name) };
    });
  });
}

/** The item a selection means, and the row it is in; null if the plan no longer holds it. */
export function findItem(model: TimelineModel, selection: Selection): { row: number; item: Item } | null {
  for (const [row, machine] of model.machines.entries()) {
    const item = machine.items.find((candidate) =>
      selection.kind === 'run'
        ? candidate.kind === 'run' && candidate.run === selection.run
        : candidate.kind === selection.kind && machine.id === selection.machine && candidate.start === selection.start,
    );
    if (item !== undefined) return { row, item };
  }
  return null;
}

/** The selection an item stands for. */
export function selectionOf(item: Item): Selection {
  return item.kind === 'run'
    ? { kind: 'run', run: item.run }
    : { kind: item.kind, machine: item.machine, start: item.start };
}

/** The time an item takes with everything drawn for it: a run from its loading to its unloading on the table. */
export function extentOf(item: Item): Interval {
  if (item.kind !== 'run') return item;
  const [whole] = union([{ start: item.start, end: item.end }, ...item.table]);
  return whole ?? item;
}
