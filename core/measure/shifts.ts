import type { Gap, IdleReason, ShiftRow } from '../contract';
import type { Plan, Shop } from '../shop';
import { addDays, expandHours, type Interval, intersect, localAt, minuteOf, occurrences, subtract } from '../time';
import { type MachineReading, type PlanReading, readPlan } from './reading';
import { minutesIn } from './sweep';

/** Days the shift table covers at least. */
const SHORTEST_TABLE = 7;

/** Time that no shift covers. */
export const NO_SHIFT = 'no shift';

/**
 * What each machine makes of each shift, by machine in the shop's order: from the plan's moment to the end of the last
 * day with a run, at least {@link SHORTEST_TABLE} days, at most the horizon. `gaps` are each machine's, as explained.
 */
export function shiftTable(
  shop: Shop,
  plan: Plan,
  gaps: ReadonlyMap<string, readonly Gap[]>,
  reading: PlanReading = readPlan(shop, plan),
): ShiftRow[] {
  const shifts = shiftOccurrences(reading, tableWindow(reading));
  const attended = reading.stretches.filter((s) => s.attended);
  return [...reading.machines.values()].flatMap((machine) => {
    const measured = {
      machine,
      attendedCut: intersect(machine.cutting, attended),
      idle: idleTimes(gaps.get(machine.machine.id) ?? []),
    };
    return shifts.map((shift) => rowOf(measured, shift));
  });
}

interface NamedShift extends Interval {
  readonly name: string;
}

function tableWindow({ plan, runs, window }: PlanReading): Interval {
  const nextMidnight = (minute: number, days: number) =>
    minuteOf(plan.clock, `${addDays(localAt(plan.clock, minute).slice(0, 10), days)}T00:00`);
  const lastOff = Math.max(plan.now, ...runs.map((run) => run.off));
  // A run that is off at midnight belongs to the day before.
  const end = Math.max(nextMidnight(lastOff - 1, 1), nextMidnight(plan.now, SHORTEST_TABLE));
  return { start: window.start, end: Math.min(end, window.end) };
}

function shiftOccurrences({ shop, plan }: PlanReading, within: Interval): NamedShift[] {
  const named = shop.shifts.flatMap((shift) =>
    occurrences(plan.clock, within, [shift]).map(({ start, end }) => ({
      name: shift.id,
      start: Math.max(start, within.start),
      end: Math.min(end, within.end),
    })),
  );
  const uncovered = subtract([within], expandHours(plan.clock, within, shop.shifts));
  return [...named, ...uncovered.map((i) => ({ name: NO_SHIFT, ...i }))].sort((a, b) => a.start - b.start);
}

function idleTimes(gaps: readonly Gap[]): Record<IdleReason, Interval[]> {
  const times: Record<IdleReason, Interval[]> = { dry: [], hand: [], off: [], 'nothing-due': [] };
  for (const gap of gaps) times[gap.reason].push(gap);
  return times;
}

interface Measured {
  readonly machine: MachineReading;
  readonly attendedCut: readonly Interval[];
  readonly idle: Record<IdleReason, readonly Interval[]>;
}

function rowOf({ machine, attendedCut, idle }: Measured, { name, start, end }: NamedShift): ShiftRow {
  const within = { start, end };
  const cutAttended = minutesIn(attendedCut, within);
  return {
    machine: machine.machine.id,
    shift: name,
    start,
    end,
    cutAttended,
    cutUnattended: minutesIn(machine.cutting, within) - cutAttended,
    handWork: minutesIn(machine.hand, within),
    waiting: minutesIn(idle.hand, within),
    dry: minutesIn(idle.dry, within),
    off: minutesIn(idle.off, within),
    nothingDue: minutesIn(idle['nothing-due'], within),
  };
}
