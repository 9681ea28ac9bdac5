import { type Attendance, mostRepeatMinutes, type PlannedRun, type RunNeed, type ToolCare } from '../../../core/shop';
import type { Interval } from '../../../core/time';
import { holdOf, jobOf, type PlanIndex } from '../plan-index';
import type { Lock, Mark, RunItem } from './row';

/** What a row says of a run: that of a machine its job and parts, that of a job its operation, that of a pallet where it is. */
export type Naming = 'job' | 'operation' | 'machine';

/** A run as a bar. */
export function runItem(index: PlanIndex, run: PlannedRun, naming: Naming = 'job', lane = 0): RunItem {
  const need = index.needs.get(run.run);
  const machine = index.machines.get(run.machine);
  const job = jobOf(run.run);
  const late = index.late.has(job);
  const onTable = naming === 'job' && machine?.places === 0 && machine.cell === null && machine.kind !== 'bench';
  return {
    kind: 'run',
    run: run.run,
    job,
    machine: run.machine,
    machineKind: machine?.kind ?? 'mill',
    late,
    lock: lockOf(index, run.run),
    lane,
    start: run.start,
    end: run.end,
    hold: holdOf(index, run),
    table: onTable ? [run.load, run.unload].filter((attendance) => attendance !== null) : [],
    spread: need === undefined ? null : spreadOf(need, run),
    labels: labelsOf(run, need, late, naming),
  };
}

function labelsOf(run: PlannedRun, need: RunNeed | undefined, late: boolean, naming: Naming): string[] {
  const job = jobOf(run.run);
  const head = late ? `${job} late` : job;
  const op = need === undefined ? '' : `op ${need.operation.id}`;
  const parts = need === undefined ? '' : `${need.parts} ${need.parts === 1 ? 'part' : 'parts'}`;
  if (naming === 'operation') return [`${op}, ${run.machine}, ${parts}`, `${op}, ${run.machine}`, op];
  if (naming === 'machine') return [`${head}, ${op}, ${run.machine}`, `${head}, ${op}`, head, job];
  return [`${head}, ${op}, ${parts}`, `${head}, ${op}`, head, job];
}

function lockOf(index: PlanIndex, run: string): Lock | null {
  if (index.clashes.has(run)) return 'clash';
  return index.floor.get(run)?.state === 'locked' ? 'held' : null;
}

/** How much sooner and later the run may end by its checks alone. */
function spreadOf(need: RunNeed, run: PlannedRun): Interval | null {
  const most = mostRepeatMinutes(need.operation.checks);
  if (most === 0) return null;
  return { start: run.end - need.repeats, end: run.end - need.repeats + most };
}

/** An attendance with who does it. */
export interface Attended {
  readonly mark: Mark;
  readonly person: string;
}

/** Each attendance of some runs. */
export function attendancesOf(runs: readonly PlannedRun[]): Attended[] {
  return runs.flatMap((run) =>
    (['load', 'check', 'work', 'unload'] as const).flatMap((role) => {
      const attendance: Attendance | null = run[role];
      if (attendance === null) return [];
      const { person, start, end } = attendance;
      return [{ mark: { role, selection: { kind: 'run' as const, run: run.run }, start, end }, person }];
    }),
  );
}

/** Each attendance to tools. */
export function caresOf(cares: readonly ToolCare[]): Attended[] {
  return cares.map(({ machine, person, start, end }) => ({
    mark: { role: 'care', selection: { kind: 'care', machine, start }, start, end },
    person,
  }));
}
