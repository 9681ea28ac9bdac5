import { NONE, type Problem } from '../problem';
import type { Interval } from '../time';
import { Marks } from './marks';
import type { Schedule } from './schedule';

/**
 * Hours to expect in unattended stretches, given the odds of the runs: in each stretch the runs on one machine, in order
 * of start, each bring `hours * (1 - loss) * P`, where `P` is the product of `1 - block` over them and those before. A
 * blocked machine stands until somebody comes (reward only on success: J. Scheduling 12, 2009).
 */
export class ExpectedHours {
  tonight = 0;
  laterNights = 0;

  private readonly stretches: readonly Interval[];
  /** The machine on whose list a run is, or NONE. */
  private readonly listed: Int32Array;
  /** By machine the runs that cut in any unattended stretch. */
  private readonly lists: number[][];
  private readonly machineTonight: Float64Array;
  private readonly machineLater: Float64Array;
  private readonly stale: Marks;

  constructor(private readonly problem: Problem) {
    const { tonight, unattended, now } = problem;
    const later = unattended.filter((s) => tonight === null || s.start >= tonight.end);
    const first = tonight === null ? [] : [{ start: Math.max(now, tonight.start), end: tonight.end }];
    this.stretches = [...first, ...later];
    this.listed = new Int32Array(problem.runCount).fill(NONE);
    this.lists = problem.machineIds.map(() => []);
    this.machineTonight = new Float64Array(problem.machineCount);
    this.machineLater = new Float64Array(problem.machineCount);
    this.stale = new Marks(problem.machineCount);
  }

  /** A run has come to where the schedule has it, or is nowhere; `cutsAlone`: it cuts in some unattended stretch there. */
  move(schedule: Schedule, run: number, cutsAlone: boolean): void {
    const from = this.listed[run]!;
    const to = cutsAlone ? this.problem.optionMachine[schedule.option[run]!]! : NONE;
    this.stale.set(from);
    this.stale.set(to);
    if (from === to) return;
    if (from !== NONE) {
      const list = this.lists[from]!;
      list[list.indexOf(run)] = list.at(-1)!;
      list.length--;
    }
    if (to !== NONE) this.lists[to]!.push(run);
    this.listed[run] = to;
  }

  /** Counts the machines again on which something has moved. */
  count(schedule: Schedule): void {
    const { stale } = this;
    for (let i = 0; i < stale.count; i++) this.countMachine(schedule, stale.items[i]!);
    stale.clear();
    this.tonight = this.laterNights = 0;
    for (let machine = 0; machine < this.lists.length; machine++) {
      this.tonight += this.machineTonight[machine]!;
      this.laterNights += this.machineLater[machine]!;
    }
  }

  private countMachine(schedule: Schedule, machine: number): void {
    const { stretches, problem } = this;
    const list = this.lists[machine]!;
    sortByStart(list, schedule.start);
    this.machineTonight[machine] = this.machineLater[machine] = 0;
    let from = 0;
    for (let s = 0; s < stretches.length && from < list.length; s++) {
      const stretch = stretches[s]!;
      let works = 1;
      let minutes = 0;
      for (let i = from; i < list.length && schedule.start[list[i]!]! < stretch.end; i++) {
        const run = list[i]!;
        if (schedule.end[run]! <= stretch.start) {
          if (i === from) from++;
          continue;
        }
        const inside = this.minutesInside(schedule, run, stretch);
        if (inside === 0) continue;
        works *= 1 - problem.block[run]!;
        minutes += inside * (1 - problem.loss[run]!) * works;
      }
      const isTonight = s === 0 && problem.tonight !== null;
      if (isTonight) this.machineTonight[machine] = minutes / 60;
      else this.machineLater[machine]! += minutes / 60;
    }
  }

  /** Minutes of cutting inside a stretch, a hold for a first-piece check left out. */
  private minutesInside(schedule: Schedule, run: number, stretch: Interval): number {
    const [start, end] = [schedule.start[run]!, schedule.end[run]!];
    const checkStart = schedule.checkStart[run]!;
    if (checkStart === NONE) return overlap(start, end, stretch);
    const { holdAfter, optionCut, checkMinutes } = this.problem;
    const hold = start + Math.min(holdAfter[run]!, optionCut[schedule.option[run]!]!);
    return overlap(start, hold, stretch) + overlap(checkStart + checkMinutes[run]!, end, stretch);
  }
}

function overlap(from: number, to: number, stretch: Interval): number {
  return Math.max(0, Math.min(to, stretch.end) - Math.max(from, stretch.start));
}

/** Insertion sort: the list is nearly sorted from the last time. */
function sortByStart(list: number[], start: Int32Array): void {
  for (let i = 1; i < list.length; i++) {
    const run = list[i]!;
    let at = i;
    while (at > 0 && start[list[at - 1]!]! > start[run]!) {
      list[at] = list[at - 1]!;
      at--;
    }
    list[at] = run;
  }
}
