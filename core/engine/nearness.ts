import { isHeld, NONE, type Problem } from '../problem';
import { MOVED_AFTER, type Plan } from '../shop';
import type { Schedule } from './schedule';

/** Where a plan has each run, in this problem's indices and minutes; machine NONE where it has it not. */
export interface PlannedTimes {
  readonly machine: Int32Array;
  readonly start: Int32Array;
}

export function plannedTimes(problem: Problem, plan: Plan): PlannedTimes {
  const shift = Math.round((plan.clock.origin - problem.clock.origin) / 60_000);
  const runIndex = new Map(problem.runIds.map((id, run) => [id, run]));
  const machineIndex = new Map(problem.machineIds.map((id, machine) => [id, machine]));
  const machine = new Int32Array(problem.runCount).fill(NONE);
  const start = new Int32Array(problem.runCount);
  for (const planned of plan.runs) {
    const run = runIndex.get(planned.run);
    if (run === undefined) continue;
    machine[run] = machineIndex.get(planned.machine) ?? NONE;
    start[run] = planned.start + shift;
  }
  return { machine, start };
}

/** True if a placed run is on another machine than a plan has it, or more than half an hour away from there. */
export function hasMoved(problem: Problem, schedule: Schedule, run: number, times: PlannedTimes): boolean {
  if (schedule.placed[run] === 0 || times.machine[run] === NONE) return false;
  const isElsewhere = problem.optionMachine[schedule.option[run]!] !== times.machine[run];
  return isElsewhere || Math.abs(schedule.start[run]! - times.start[run]!) > MOVED_AFTER;
}

/**
 * A run that has moved counts as a shift of distance beside the minutes it moved: few are to move, and those little. Counted
 * as a week, one run went days away where two could have gone hours.
 */
const MOVED = 480;

/** An hour of distance costs so many times what an hour, run or round of anything else costs at most. */
const BEFORE_ALL = 1000;

/** Where work may give way to other, a run that moves costs as much as one weighted hour late for so many of them. */
const MOVES_AN_HOUR = 2;

/**
 * Prices how far a schedule is from a plan it is to stay near to: the runs that moved, and their minutes. Held runs do
 * not count, for they stay where they are held.
 */
export class Nearness {
  readonly times: PlannedTimes;
  private readonly away: Int32Array;
  private minutes = 0;
  private readonly perMinute: number;

  constructor(
    private readonly problem: Problem,
    plan: Plan,
    mayGiveWay: boolean,
  ) {
    this.times = plannedTimes(problem, plan);
    this.away = new Int32Array(problem.runCount);
    const { weights } = problem.shop;
    if (mayGiveWay) {
      this.perMinute = weights.lateness / MOVES_AN_HOUR / MOVED;
      return;
    }
    const dearestJob = problem.jobWeight.reduce((most, weight) => Math.max(most, weight), 1);
    this.perMinute = (BEFORE_ALL * Math.max(1, ...Object.values(weights)) * dearestJob) / 60;
  }

  get price(): number {
    return this.minutes * this.perMinute;
  }

  /** True if a run can move and is not where the plan has it. */
  isAway(run: number): boolean {
    return this.away[run]! > 0;
  }

  /** Counts one run again. */
  count(schedule: Schedule, run: number): void {
    const away = this.distance(schedule, run);
    this.minutes += away - this.away[run]!;
    this.away[run] = away;
  }

  /** Minutes from where the plan has it, and what it counts if it has moved or is left out. */
  distance(schedule: Schedule, run: number): number {
    const { problem, times } = this;
    if (times.machine[run] === NONE || isHeld(problem, run)) return 0;
    // Left out is further than anywhere.
    if (schedule.placed[run] === 0) return 2 * MOVED + problem.horizon - problem.now;
    const minutes = Math.abs(schedule.start[run]! - times.start[run]!);
    return hasMoved(problem, schedule, run, times) ? MOVED + minutes : minutes;
  }
}
