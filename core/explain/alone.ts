import { firstFit, isBench, isTable, neighbours, type PlanReading, releaseOf, stepKey } from '../measure';
import type { Job, Machine, RunNeed } from '../shop';
import { type Interval, intersect, type Minute } from '../time';
import { cutOn, handMinutes, skillFor } from './work';

const NEVER = Number.POSITIVE_INFINITY;

/** Tells the earliest each job could be finished. */
export type Alone = (job: Job) => Minute;

/**
 * The earliest a job could be finished with these hours of people and machines if it were the only one and had a
 * pallet and a fastest machine for each of its runs: no plan finishes it sooner. Infinity: not before the horizon.
 */
export function aloneIn(reading: PlanReading): Alone {
  const { shop, plan, presences, window } = reading;
  const machineOf = new Map(shop.machines.map((machine) => [machine.id, machine]));
  const known = new Map<string, Interval[]>();

  /** When somebody with the skill can stand at the machine; only if it is open, where work stops it. */
  function handWindows(skill: string, machine: Machine): Interval[] {
    const stops = isTable(machine) || isBench(machine);
    const key = JSON.stringify([skill, stops ? machine.id : null]);
    let windows = known.get(key);
    if (windows === undefined) {
      const open = stops ? openOf(machine) : [window];
      windows = presences
        .filter((p) => skill === '' || p.person.skills.includes(skill))
        .flatMap((p) => intersect(p.able, open))
        .sort((a, b) => a.start - b.start);
      known.set(key, windows);
    }
    return windows;
  }

  function openOf(machine: Machine): readonly Interval[] {
    return reading.machines.get(machine.id)!.open;
  }

  function attend(need: RunNeed, machine: Machine, from: Minute, minutes: number): Minute {
    if (minutes === 0) return from;
    return firstFit(handWindows(skillFor(need, machine), machine), from, minutes) + minutes;
  }

  /** The earliest a run still to be loaded is off, and its first piece passed if it has one. */
  function fresh(need: RunNeed, machine: Machine, from: Minute, passed: Minute): Ending {
    if (isBench(machine)) return { off: attend(need, machine, from, handMinutes(need, machine)), passed };
    const { load, unload, firstPiece } = need.operation;
    const cut = cutOn(need, machine);
    const check = need.number === 1 ? firstPiece : null;
    const first = check === null ? cut : Math.min(check.after, cut);
    let loaded = attend(need, machine, from, load);
    let start = firstFit(openOf(machine), Math.max(loaded, passed), first);
    // On the table loading ends the minute cutting starts.
    while (isTable(machine) && load > 0 && loaded < start && start < NEVER) {
      loaded = attend(need, machine, start - load, load);
      start = firstFit(openOf(machine), loaded, first);
    }
    if (check === null) return { off: attend(need, machine, start + cut, unload), passed };
    const checked = attend(need, machine, start + first, check.minutes);
    return { off: attend(need, machine, checked + cut - first, unload), passed: checked };
  }

  /** The earliest a run the floor has begun is off, or null if it has not. */
  function begun(need: RunNeed): Minute | null {
    const done = reading.done.get(need.id);
    if (done !== undefined) return done;
    const run = reading.runOf.get(need.id);
    const state = run?.floor?.state;
    if (run === undefined || state === undefined || state === 'locked') return null;
    const end = state === 'loaded' ? plan.now + cutOn(need, run.machine) : run.planned.end;
    return attend(need, run.machine, end, need.operation.unload);
  }

  return (job) => {
    const offs = new Map<string, Minute>();
    for (let step = 0; step < job.route.length; step++) {
      let passed = Number.NEGATIVE_INFINITY;
      for (const need of reading.needs.get(stepKey(job.id, step)) ?? []) {
        const before = neighbours(reading, need, -1).map((run) => offs.get(run.id)!);
        const ready = step === 0 ? releaseOf(reading, need) : Math.max(...before) + need.operation.lag;
        const from = Math.max(window.start, ready);
        const off = begun(need);
        const endings = need.operation.machines.map(({ machine }) =>
          fresh(need, machineOf.get(machine)!, from, passed),
        );
        offs.set(need.id, off ?? Math.min(...endings.map((e) => e.off)));
        if (need.number === 1 && off === null) passed = Math.min(...endings.map((e) => e.passed));
      }
    }
    return Math.max(...offs.values());
  };
}

interface Ending {
  readonly off: Minute;
  readonly passed: Minute;
}
