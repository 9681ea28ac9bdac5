import type { ShiftRow } from '../../core/contract';
import { type Clock, dayText } from '../../core/time';

/** What became of the time of a shift, minutes; all but `window` add up to it. */
export interface ShiftTimes {
  readonly window: number;
  readonly cutAttended: number;
  readonly cutUnattended: number;
  readonly handWork: number;
  readonly waiting: number;
  readonly dry: number;
  readonly off: number;
  readonly nothingDue: number;
}

export interface ShiftSum {
  readonly shift: string;
  /** Over all machines. */
  readonly times: ShiftTimes;
  readonly machines: readonly { readonly machine: string; readonly times: ShiftTimes }[];
}

const NONE: ShiftTimes = {
  window: 0,
  cutAttended: 0,
  cutUnattended: 0,
  handWork: 0,
  waiting: 0,
  dry: 0,
  off: 0,
  nothingDue: 0,
};

function add(a: ShiftTimes, b: ShiftTimes): ShiftTimes {
  return {
    window: a.window + b.window,
    cutAttended: a.cutAttended + b.cutAttended,
    cutUnattended: a.cutUnattended + b.cutUnattended,
    handWork: a.handWork + b.handWork,
    waiting: a.waiting + b.waiting,
    dry: a.dry + b.dry,
    off: a.off + b.off,
    nothingDue: a.nothingDue + b.nothingDue,
  };
}

export function total(times: readonly ShiftTimes[]): ShiftTimes {
  return times.reduce(add, NONE);
}

/** Occurrences of each shift summed per machine; shifts and machines in the order in which they first come. */
export function sumShifts(rows: readonly ShiftRow[]): ShiftSum[] {
  const shifts = new Map<string, Map<string, ShiftTimes>>();
  for (const row of rows) {
    const machines = shifts.get(row.shift) ?? new Map<string, ShiftTimes>();
    shifts.set(row.shift, machines);
    const times = { ...row, window: row.end - row.start };
    machines.set(row.machine, add(machines.get(row.machine) ?? NONE, times));
  }
  return [...shifts].map(([shift, machines]) => ({
    shift,
    times: total([...machines.values()]),
    machines: [...machines].map(([machine, times]) => ({ machine, times })),
  }));
}

/** The days on which the rows' shifts begin, in order. */
export function daysOf(clock: Clock, rows: readonly ShiftRow[]): string[] {
  const starts = [...new Set(rows.map((row) => row.start))].sort((a, b) => a - b);
  return [...new Set(starts.map((start) => dayText(clock, start)))];
}

export function cutOf(times: ShiftTimes): number {
  return times.cutAttended + times.cutUnattended;
}

/** The shift that cuts most with nobody there: the one the owner asks about first. Null if none does. */
export function nightShift(sums: readonly ShiftSum[]): ShiftSum | null {
  const most = [...sums].sort((a, b) => b.times.cutUnattended - a.times.cutUnattended)[0];
  return most === undefined || most.times.cutUnattended === 0 ? null : most;
}

/** `third` as `Third shift`; a name that says "shift" already stays as it is. */
export function shiftTitle(shift: string): string {
  const title = shift.charAt(0).toUpperCase() + shift.slice(1);
  return /shift/i.test(shift) ? title : `${title} shift`;
}
