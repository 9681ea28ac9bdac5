import { NONE, type Problem, type Rows } from '../problem';
import type { Plan, PlanCost } from '../shop';
import type { Interval } from '../time';
import type { Attendances } from './attendances';
import { ExpectedHours } from './expected-hours';
import { Marks } from './marks';
import { hasMoved, type Nearness, type PlannedTimes, plannedTimes } from './nearness';
import { rowsBy } from './rows';
import type { Schedule } from './schedule';

/**
 * Prices schedules of one problem. Parts are in the units of {@link PlanCost}; the fields are overwritten by each
 * pricing. A whole schedule is priced by {@link price}; after a change only what {@link mark} was told of is counted
 * again, so that a change of three runs costs the same in a shop of sixty and of two thousand.
 */
export class Pricer implements PlanCost {
  lateness = 0;
  loaded = 0;
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
  private readonly hasExtra: boolean;
  private readonly released: PlannedTimes | null;
  private readonly jobRuns: Rows;

  // What each run and person adds, in minutes and counts, and the sums: whole numbers, so that nothing drifts.
  private readonly runTonight: Int32Array;
  private readonly runLater: Int32Array;
  private readonly runFlow: Int32Array;
  private readonly runMoved: Uint8Array;
  /** The machine a run keeps cutting at dawn, or NONE. */
  private readonly runAtDawn: Int32Array;
  private readonly cutsAtDawn: Int32Array;
  private readonly personExtra: Int32Array;
  private tonightMinutes = 0;
  private laterMinutes = 0;
  private flowMinutes = 0;
  private movedRuns = 0;
  private machinesAtDawn = 0;

  /** Null where no run has odds: then all that is cut is to be expected. */
  private readonly expected: ExpectedHours | null;

  private readonly markedRuns: Marks;
  private readonly markedJobs: Marks;
  private readonly markedPeople: Marks;

  constructor(
    private readonly problem: Problem,
    released: Plan | undefined,
    /** What the plan is to stay near to, if that goes before its cost. */
    private readonly nearness: Nearness | null = null,
  ) {
    const { tonight, runCount, jobCount, machineCount, personCount } = problem;
    this.jobFinish = new Int32Array(jobCount).fill(NONE);
    this.nights = problem.unattended.filter((s) => tonight === null || s.start >= tonight.end);
    this.hasExtra = problem.extra.start.length > 0;
    this.released = released === undefined ? null : plannedTimes(problem, released);
    this.jobRuns = rowsBy(problem.runJob, jobCount);
    this.runTonight = new Int32Array(runCount);
    this.runLater = new Int32Array(runCount);
    this.runFlow = new Int32Array(runCount);
    this.runMoved = new Uint8Array(runCount);
    this.runAtDawn = new Int32Array(runCount).fill(NONE);
    this.cutsAtDawn = new Int32Array(machineCount);
    this.personExtra = new Int32Array(personCount);
    const hasOdds = problem.block.some((odds) => odds > 0) || problem.loss.some((odds) => odds > 0);
    this.expected = hasOdds ? new ExpectedHours(problem) : null;
    this.markedRuns = new Marks(runCount);
    this.markedJobs = new Marks(jobCount);
    this.markedPeople = new Marks(personCount);
  }

  /**
   * Prices a schedule; `people` holds each person's attendances in order of start. Returns the total, and with it the price
   * of the distance from the plan it is to stay near to.
   */
  price(schedule: Schedule, people: readonly Attendances[]): number {
    this.markedRuns.setAll();
    this.markedJobs.setAll();
    if (this.hasExtra) this.markedPeople.setAll();
    return this.priceMarked(schedule, people);
  }

  /** A run leaves where this schedule has it, or has come there: it is counted again at the next pricing. */
  mark(schedule: Schedule, run: number): void {
    this.markedRuns.set(run);
    this.markedJobs.set(this.problem.runJob[run]!);
    if (!this.hasExtra || schedule.placed[run] === 0) return;
    const { markedPeople } = this;
    markedPeople.set(schedule.loadPerson[run]!);
    markedPeople.set(schedule.unloadPerson[run]!);
    markedPeople.set(schedule.checkPerson[run]!);
    markedPeople.set(schedule.workPerson[run]!);
  }

  /** As {@link mark}, for an attendance to tools. */
  markCare(schedule: Schedule, care: number): void {
    if (this.hasExtra && schedule.careMachine[care] !== NONE) this.markedPeople.set(schedule.carePerson[care]!);
  }

  /** Counts again what is marked; the rest must be as it was at the last pricing. Returns what {@link price} does. */
  priceMarked(schedule: Schedule, people: readonly Attendances[]): number {
    const { markedRuns, markedJobs, markedPeople } = this;
    for (let i = 0; i < markedRuns.count; i++) this.countRun(schedule, markedRuns.items[i]!);
    let isJobMoved = false;
    for (let i = 0; i < markedJobs.count; i++) isJobMoved = this.countJob(schedule, markedJobs.items[i]!) || isJobMoved;
    for (let i = 0; i < markedPeople.count; i++) this.countExtra(people, markedPeople.items[i]!);
    markedRuns.clear();
    markedJobs.clear();
    markedPeople.clear();
    this.expected?.count(schedule);
    if (isJobMoved) this.sumJobs();
    this.sumHands(people);
    this.loaded = this.tonightMinutes / 60;
    this.tonight = this.expected?.tonight ?? this.loaded;
    this.laterNights = this.expected?.laterNights ?? this.laterMinutes / 60;
    this.flow = this.flowMinutes / 60;
    this.moved = this.movedRuns;
    this.morning = this.machinesAtDawn;
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
    return this.nearness === null ? this.total : this.total + this.nearness.price;
  }

  /** The parts as they stand, to keep. */
  parts(): PlanCost {
    const { lateness, loaded, tonight, laterNights, morning, rounds, extraHours, moved, flow, finish, total } = this;
    return { lateness, loaded, tonight, laterNights, morning, rounds, extraHours, moved, flow, finish, total };
  }

  private countRun(schedule: Schedule, run: number): void {
    this.tonightMinutes -= this.runTonight[run]!;
    this.laterMinutes -= this.runLater[run]!;
    this.flowMinutes -= this.runFlow[run]!;
    this.movedRuns -= this.runMoved[run]!;
    const atDawn = this.runAtDawn[run]!;
    if (atDawn !== NONE && --this.cutsAtDawn[atDawn]! === 0) this.machinesAtDawn--;
    this.runTonight[run] = this.runLater[run] = this.runFlow[run] = this.runMoved[run] = 0;
    this.runAtDawn[run] = NONE;
    this.countCutting(schedule, run);
    this.nearness?.count(schedule, run);
    this.expected?.move(schedule, run, this.runTonight[run]! + this.runLater[run]! > 0);
    if (this.released !== null) this.runMoved[run] = Number(hasMoved(this.problem, schedule, run, this.released));
    this.tonightMinutes += this.runTonight[run]!;
    this.laterMinutes += this.runLater[run]!;
    this.flowMinutes += this.runFlow[run]!;
    this.movedRuns += this.runMoved[run]!;
    const dawn = this.runAtDawn[run]!;
    if (dawn !== NONE && this.cutsAtDawn[dawn]!++ === 0) this.machinesAtDawn++;
  }

  private countCutting(schedule: Schedule, run: number): void {
    const { problem } = this;
    if (schedule.placed[run] === 0) {
      this.runFlow[run] = problem.horizon - problem.now;
      return;
    }
    const machine = problem.optionMachine[schedule.option[run]!]!;
    if (problem.isBench[machine] === 1) return;
    const checkStart = schedule.checkStart[run]!;
    let from = schedule.start[run]!;
    const end = schedule.end[run]!;
    this.runFlow[run] = Math.max(0, end - problem.now);
    if (checkStart !== NONE) {
      const hold = from + Math.min(problem.holdAfter[run]!, problem.optionCut[schedule.option[run]!]!);
      this.countNight(run, machine, from, hold);
      from = checkStart + problem.checkMinutes[run]!;
    }
    this.countNight(run, machine, from, end);
  }

  private countNight(run: number, machine: number, from: number, to: number): void {
    const { nights } = this;
    const { tonight, now } = this.problem;
    if (tonight !== null && from < tonight.end && to > tonight.start) {
      if (to >= tonight.end) this.runAtDawn[run] = machine;
      this.runTonight[run]! += Math.max(0, Math.min(to, tonight.end) - Math.max(from, tonight.start, now));
    }
    for (let i = 0; i < nights.length && nights[i]!.start < to; i++) {
      if (nights[i]!.end > from) {
        this.runLater[run]! += Math.min(to, nights[i]!.end) - Math.max(from, nights[i]!.start);
      }
    }
  }

  /** A job with runs left out is finished at the horizon plus their shortest cuts. True if its finish has moved. */
  private countJob(schedule: Schedule, job: number): boolean {
    const { problem, jobFinish, jobRuns } = this;
    let finish = NONE;
    let leftOut = NONE;
    for (let i = jobRuns.start[job]!; i < jobRuns.start[job + 1]!; i++) {
      const run = jobRuns.items[i]!;
      if (schedule.placed[run] === 1) finish = Math.max(finish, schedule.off[run]!);
      else leftOut = Math.max(leftOut, 0) + problem.shortestCut[run]!;
    }
    if (leftOut !== NONE) finish = Math.max(finish, problem.horizon) + leftOut;
    if (finish === jobFinish[job]) return false;
    jobFinish[job] = finish;
    return true;
  }

  private sumJobs(): void {
    const { jobFinish } = this;
    const { due, jobWeight, now } = this.problem;
    let lateness = 0;
    let last = now;
    for (let job = 0; job < jobFinish.length; job++) {
      const finish = jobFinish[job]!;
      if (finish > last) last = finish;
      if (finish !== NONE && finish > due[job]!) lateness += jobWeight[job]! * (finish - due[job]!);
    }
    this.lateness = lateness / 60;
    this.finish = (last - now) / 60;
  }

  private countExtra(people: readonly Attendances[], person: number): void {
    const { first, start, end } = this.problem.extra;
    const bookings = people[person]!;
    let minutes = 0;
    for (let i = 0; i < bookings.count; i++) {
      for (let k = first[person]!; k < first[person + 1]!; k++) {
        minutes += Math.max(0, Math.min(bookings.end[i]!, end[k]!) - Math.max(bookings.start[i]!, start[k]!));
      }
    }
    this.personExtra[person] = minutes;
  }

  private sumHands(people: readonly Attendances[]): void {
    let rounds = 0;
    for (let person = 0; person < people.length; person++) rounds += people[person]!.rounds;
    this.rounds = rounds;
    if (!this.hasExtra) return;
    this.extraHours = this.personExtra.reduce((sum, minutes) => sum + minutes, 0) / 60;
  }
}
