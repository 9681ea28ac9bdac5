import { NONE, type Problem } from '../problem';
import { MOVED_AFTER, type Plan, type PlanCost, ROUND_PAUSE } from '../shop';
import type { Interval } from '../time';
import type { Bookings } from './bookings';
import type { Schedule } from './schedule';

/** Where the released plan has each run, in this problem's indices and minutes; NONE where it has it not. */
interface Released {
  readonly machine: Int32Array;
  readonly start: Int32Array;
}

/**
 * Prices schedules of one problem. Parts are in the units of {@link PlanCost}; the fields are overwritten by each
 * pricing, so that pricing a million schedules allocates nothing.
 */
export class Pricer implements PlanCost {
  lateness = 0;
  tonight = 0;
  laterNights = 0;
  morning = 0;
  rounds = 0;
  extraHours = 0;
  moved = 0;
  flow = 0;
  finish = 0;
  total = 0;
  /** Minute at which each job's last run is off. */
  readonly jobFinish: Int32Array;

  private readonly nights: readonly Interval[];
  private readonly cutsAtDawn: Uint8Array;
  private readonly hasExtra: boolean;
  private readonly released: Released | null;
  private readonly shortestCut: Int32Array;

  constructor(
    private readonly problem: Problem,
    released: Plan | undefined,
  ) {
    const { tonight } = problem;
    this.jobFinish = new Int32Array(problem.jobCount);
    this.nights = problem.unattended.filter((s) => tonight === null || s.start >= tonight.end);
    this.cutsAtDawn = new Uint8Array(problem.machineCount);
    this.hasExtra = problem.extra.start.length > 0;
    this.released = released === undefined ? null : releasedTimes(problem, released);
    this.shortestCut = shortestCuts(problem);
  }

  /** Prices a schedule; `people` holds each person's attendances in order of start. Returns the total. */
  price(schedule: Schedule, people: readonly Bookings[]): number {
    this.priceCutting(schedule);
    this.priceJobs(schedule);
    this.priceHands(people);
    this.moved = this.released === null ? 0 : countMoved(this.problem, schedule, this.released);
    const { weights } = this.problem.shop;
    this.total =
      weights.lateness * this.lateness +
      weights.rounds * this.rounds +
      weights.extraHours * this.extraHours +
      weights.moved * this.moved +
      weights.flow * this.flow +
      weights.finish * this.finish -
      weights.tonight * this.tonight -
      weights.laterNights * this.laterNights -
      weights.morning * this.morning;
    return this.total;
  }

  /** The parts as they stand, to keep. */
  parts(): PlanCost {
    const { lateness, tonight, laterNights, morning, rounds, extraHours, moved, flow, finish, total } = this;
    return { lateness, tonight, laterNights, morning, rounds, extraHours, moved, flow, finish, total };
  }

  private priceCutting(schedule: Schedule): void {
    const { problem, cutsAtDawn } = this;
    cutsAtDawn.fill(0);
    let tonight = 0;
    let later = 0;
    let flow = 0;
    for (let run = 0; run < problem.runCount; run++) {
      if (schedule.placed[run] === 0) {
        flow += problem.horizon - problem.now;
        continue;
      }
      const machine = problem.optionMachine[schedule.option[run]!]!;
      if (problem.isBench[machine] === 1) continue;
      const checkStart = schedule.checkStart[run]!;
      let from = schedule.start[run]!;
      const end = schedule.end[run]!;
      flow += Math.max(0, end - problem.now);
      if (checkStart !== NONE) {
        const hold = from + Math.min(problem.holdAfter[run]!, problem.optionCut[schedule.option[run]!]!);
        tonight += this.cutTonight(machine, from, hold);
        later += this.cutLater(from, hold);
        from = checkStart + problem.checkMinutes[run]!;
      }
      tonight += this.cutTonight(machine, from, end);
      later += this.cutLater(from, end);
    }
    this.tonight = tonight / 60;
    this.laterNights = later / 60;
    this.flow = flow / 60;
    let morning = 0;
    for (let machine = 0; machine < cutsAtDawn.length; machine++) morning += cutsAtDawn[machine]!;
    this.morning = morning;
  }

  private cutTonight(machine: number, from: number, to: number): number {
    const { tonight, now } = this.problem;
    if (tonight === null || from >= tonight.end || to <= tonight.start) return 0;
    if (to >= tonight.end) this.cutsAtDawn[machine] = 1;
    return Math.max(0, Math.min(to, tonight.end) - Math.max(from, tonight.start, now));
  }

  private cutLater(from: number, to: number): number {
    const { nights } = this;
    let minutes = 0;
    for (let i = 0; i < nights.length && nights[i]!.start < to; i++) {
      if (nights[i]!.end > from) minutes += Math.min(to, nights[i]!.end) - Math.max(from, nights[i]!.start);
    }
    return minutes;
  }

  private priceJobs(schedule: Schedule): void {
    const { problem, jobFinish } = this;
    jobFinish.fill(NONE);
    for (let run = 0; run < problem.runCount; run++) {
      if (schedule.placed[run] === 0) continue;
      const job = problem.runJob[run]!;
      if (schedule.off[run]! > jobFinish[job]!) jobFinish[job] = schedule.off[run]!;
    }
    this.postpone(schedule);
    let lateness = 0;
    let last = problem.now;
    for (let job = 0; job < jobFinish.length; job++) {
      const finish = jobFinish[job]!;
      if (finish === NONE) continue;
      if (finish > last) last = finish;
      if (finish > problem.due[job]!) lateness += problem.jobWeight[job]! * (finish - problem.due[job]!);
    }
    this.lateness = lateness / 60;
    this.finish = (last - problem.now) / 60;
  }

  /** A job with runs left out is finished at the horizon plus their shortest cuts. */
  private postpone(schedule: Schedule): void {
    const { problem, jobFinish } = this;
    for (let run = 0; run < problem.runCount; run++) {
      if (schedule.placed[run] === 1) continue;
      const job = problem.runJob[run]!;
      jobFinish[job] = Math.max(jobFinish[job]!, problem.horizon) + this.shortestCut[run]!;
    }
  }

  private priceHands(people: readonly Bookings[]): void {
    let rounds = 0;
    let extra = 0;
    for (let person = 0; person < people.length; person++) {
      rounds += roundsIn(this.problem, people[person]!);
      if (this.hasExtra) extra += this.extraMinutes(person, people[person]!);
    }
    this.rounds = rounds;
    this.extraHours = extra / 60;
  }

  private extraMinutes(person: number, bookings: Bookings): number {
    const { first, start, end } = this.problem.extra;
    let minutes = 0;
    for (let i = 0; i < bookings.count; i++) {
      for (let k = first[person]!; k < first[person + 1]!; k++) {
        minutes += Math.max(0, Math.min(bookings.end[i]!, end[k]!) - Math.max(bookings.start[i]!, start[k]!));
      }
    }
    return minutes;
  }
}

function roundsIn(problem: Problem, bookings: Bookings): number {
  const { walk, spotCount } = problem;
  let rounds = 0;
  for (let i = 0; i < bookings.count; i++) {
    if (i > 0) {
      const there = walk[bookings.spot[i - 1]! * spotCount + bookings.spot[i]!]!;
      if (bookings.start[i]! - bookings.end[i - 1]! <= there + ROUND_PAUSE) continue;
    }
    rounds++;
  }
  return rounds;
}

function releasedTimes(problem: Problem, plan: Plan): Released {
  const shift = Math.round((plan.clock.origin - problem.clock.origin) / 60_000);
  const runIndex = new Map(problem.runIds.map((id, run) => [id, run]));
  const machine = new Int32Array(problem.runCount).fill(NONE);
  const start = new Int32Array(problem.runCount);
  for (const planned of plan.runs) {
    const run = runIndex.get(planned.run);
    if (run === undefined) continue;
    machine[run] = problem.machineIds.indexOf(planned.machine);
    start[run] = planned.start + shift;
  }
  return { machine, start };
}

function countMoved(problem: Problem, schedule: Schedule, released: Released): number {
  let moved = 0;
  for (let run = 0; run < problem.runCount; run++) {
    if (schedule.placed[run] === 0 || released.machine[run] === NONE) continue;
    const isElsewhere = problem.optionMachine[schedule.option[run]!] !== released.machine[run];
    if (isElsewhere || Math.abs(schedule.start[run]! - released.start[run]!) > MOVED_AFTER) moved++;
  }
  return moved;
}

function shortestCuts(problem: Problem): Int32Array {
  return Int32Array.from({ length: problem.runCount }, (_, run) => {
    const cuts = problem.optionCut.subarray(problem.optionFirst[run]!, problem.optionFirst[run + 1]!);
    return cuts.reduce((least, cut) => Math.min(least, cut), 0x3fffffff);
  });
}
