import { type AttendanceRole, cutMinutes, type FloorEntry, type Machine, type PlannedRun, type RunNeed } from '../shop';
import type { Interval, Minute } from '../time';

/** A planned run with what follows from it. */
export interface RunSpans {
  readonly need: RunNeed;
  readonly planned: PlannedRun;
  readonly machine: Machine;
  readonly floor: FloorEntry | null;
  /** Holds pallet and place from `on` to `off`. */
  readonly on: Minute;
  readonly off: Minute;
  /** When the machine can take no other run. */
  readonly busy: Interval;
  /** Tool in the work; none at a bench. */
  readonly cutting: readonly Interval[];
  /** The machine stands under a person's hands: checks, work at a bench, loading and unloading on the table. */
  readonly hand: readonly Interval[];
  /** The machine holds for the first-piece check, before it begins. */
  readonly hold: Interval | null;
  readonly attendances: readonly Attended[];
}

export interface Attended extends Interval {
  readonly role: AttendanceRole | 'care';
  readonly person: string;
}

export function isBench(machine: Machine): boolean {
  return machine.kind === 'bench';
}

/** Loaded and unloaded on the table, where nothing can wait beside the work. */
export function isTable(machine: Machine): boolean {
  return !isBench(machine) && machine.cell === null && machine.places === 0;
}

/** Works out the spans of a run; `now` is the plan's moment. */
export function spansOf(
  need: RunNeed,
  planned: PlannedRun,
  machine: Machine,
  floor: FloorEntry | null,
  now: Minute,
): RunSpans {
  const { start, end, load, check, unload, work } = planned;
  const before = floor?.state === 'loaded' ? Math.min(start, now) : start;
  const on = load?.start ?? before;
  const off = unload?.end ?? end;
  const table = isTable(machine);
  const roles = { load, check, work, unload };
  const attendances = (Object.keys(roles) as AttendanceRole[]).flatMap((role) => {
    const attendance = roles[role];
    return attendance === null ? [] : [{ role, ...attendance }];
  });
  const stands = attendances.filter((a) => table || a.role === 'check' || a.role === 'work');
  const hold = check === null ? null : { start: holdOf(need, planned), end: check.start };
  return {
    need,
    planned,
    machine,
    floor,
    on,
    off,
    busy: table ? { start: on, end: off } : { start, end },
    cutting: isBench(machine) ? [] : cuttingOf(planned, hold),
    hand: stands.map((a) => ({ start: a.start, end: a.end })),
    hold,
    attendances,
  };
}

function holdOf(need: RunNeed, planned: PlannedRun): Minute {
  const cycle = need.operation.machines.find((m) => m.machine === planned.machine)?.cycle ?? 0;
  const after = need.operation.firstPiece?.after ?? 0;
  return planned.start + Math.min(after, cutMinutes(need, cycle));
}

function cuttingOf({ start, end, check }: PlannedRun, hold: Interval | null): Interval[] {
  if (check === null || hold === null) return [{ start, end }];
  return [
    { start, end: hold.start },
    { start: check.end, end },
  ];
}
