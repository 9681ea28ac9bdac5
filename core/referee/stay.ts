import { cutMinutes, type FloorEntry, type Machine, type PlannedRun, type RunNeed } from '../shop';
import type { Interval, Minute } from '../time';

/** A planned run beside what the shop calls for, with the spans that follow from both. */
export interface Stay {
  readonly planned: PlannedRun;
  readonly need: RunNeed;
  readonly entry: FloorEntry | undefined;
  /** Undefined if the shop has no such machine. */
  readonly machine: Machine | undefined;
  readonly isBench: boolean;
  readonly isTable: boolean;
  /** Minutes the machine cuts, or null if the machine is not among the operation's. */
  readonly cut: number | null;
  /** Minutes cut before the first-piece check; all of `cut` where there is none. */
  readonly untilHold: number;
  /** From loading on, but not before `now` for a run that was loaded before it. */
  readonly on: Minute;
  /** When it is taken off. */
  readonly off: Minute;
}

export function stayOf(
  planned: PlannedRun,
  need: RunNeed,
  entry: FloorEntry | undefined,
  machine: Machine | undefined,
  now: Minute,
): Stay {
  const cycle = need.operation.machines.find((choice) => choice.machine === planned.machine)?.cycle;
  const cut = cycle === undefined ? null : cutMinutes(need, cycle);
  const whole = cut ?? planned.end - planned.start;
  const isBench = machine?.kind === 'bench';
  const begins = planned.load?.start ?? planned.start;
  return {
    planned,
    need,
    entry,
    machine,
    isBench,
    isTable: machine !== undefined && isTable(machine),
    cut,
    untilHold: Math.min(need.operation.firstPiece?.after ?? whole, whole),
    on: entry?.state === 'loaded' ? Math.min(begins, now) : begins,
    off: planned.unload?.end ?? planned.end,
  };
}

/** Loaded on the table: it has no places, its own or a cell's. */
export function isTable(machine: Machine): boolean {
  return machine.kind !== 'bench' && machine.places === 0 && machine.cell === null;
}

/** From when to when the machine itself cuts: at a bench never, before and after a hold for the first-piece check. */
export function cuttingOf(stay: Stay): Interval[] {
  const { start, end, check } = stay.planned;
  if (stay.isBench) return [];
  if (check === null) return [{ start, end }];
  return [
    { start, end: start + stay.untilHold },
    { start: check.end, end },
  ];
}

/** Whether a first-piece check is part of the run; `open` if it was due before the plan's moment and may be done. */
export function checkOf(stay: Stay, now: Minute): 'due' | 'open' | 'none' {
  const { firstPiece } = stay.need.operation;
  if (firstPiece === null || stay.need.number !== 1 || stay.isBench || stay.entry?.state === 'finished') return 'none';
  const soonestDone = stay.planned.start + stay.untilHold + firstPiece.minutes;
  return stay.entry?.state === 'running' && soonestDone <= now ? 'open' : 'due';
}
