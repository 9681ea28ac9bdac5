import { NONE, type Problem, type Rows } from '../problem';
import type { Attendances } from './attendances';
import type { Pricer } from './cost';
import { rowsBy } from './rows';
import type { Schedule } from './schedule';

/**
 * What one attendance adds to a plan's cost, worked out without putting it there: a settled plan tries hundreds of
 * thousands of places, and only few are taken. Costs are in the units of a plan's total, apart from a constant.
 */
export class HandPrice {
  private readonly jobRuns: Rows;
  private readonly hasExtra: boolean;
  // Of the run whose unload is looked at: when its job is finished without it, and the last job without its job.
  private jobFinish = NONE;
  private lastFinish = 0;

  constructor(
    private readonly problem: Problem,
    private readonly schedule: Schedule,
    private readonly pricer: Pricer,
    private readonly people: readonly Attendances[],
  ) {
    this.jobRuns = rowsBy(problem.runJob, problem.jobCount);
    this.hasExtra = problem.extra.start.length > 0;
  }

  /**
   * Of the hand itself: the rounds it makes more and the extra hours. The person does not have it yet; `after` is the
   * index of the attendance that comes after it.
   */
  ofHand(person: number, after: number, start: number, end: number, spot: number): number {
    const { weights } = this.problem.shop;
    const rounds = weights.rounds * this.people[person]!.roundsWith(after, start, end, spot);
    return this.hasExtra ? rounds + (weights.extraHours * this.extraMinutes(person, start, end)) / 60 : rounds;
  }

  /** Looks at the unload of a run from here on. The schedule's price must stand. */
  lookAt(run: number): void {
    const { problem, pricer, schedule, jobRuns } = this;
    const job = problem.runJob[run]!;
    let finish = NONE;
    for (let i = jobRuns.start[job]!; i < jobRuns.start[job + 1]!; i++) {
      const other = jobRuns.items[i]!;
      if (schedule.placed[other] === 0) {
        // The job is as late as can be, whenever this run is off.
        finish = pricer.jobFinish[job]!;
        break;
      }
      if (other !== run) finish = Math.max(finish, schedule.off[other]!);
    }
    this.jobFinish = finish;
    this.lastFinish = Math.round(pricer.finish * 60) + problem.now;
    if (pricer.jobFinish[job] === this.lastFinish) this.lastFinish = this.lastBeside(job);
  }

  /** Of the lateness of the job looked at, and of the finish of all, if the run is off then. */
  ofOff(run: number, off: number): number {
    const { due, jobWeight, runJob, now, shop } = this.problem;
    const { weights } = shop;
    const job = runJob[run]!;
    const finish = Math.max(this.jobFinish, off);
    const late = jobWeight[job]! * Math.max(0, finish - due[job]!);
    return (weights.lateness * late + weights.finish * (Math.max(this.lastFinish, finish) - now)) / 60;
  }

  private lastBeside(job: number): number {
    const { jobFinish } = this.pricer;
    let last = this.problem.now;
    for (let other = 0; other < jobFinish.length; other++) {
      if (other !== job) last = Math.max(last, jobFinish[other]!);
    }
    return last;
  }

  private extraMinutes(person: number, from: number, to: number): number {
    const { first, start, end } = this.problem.extra;
    let minutes = 0;
    for (let k = first[person]!; k < first[person + 1]!; k++) {
      minutes += Math.max(0, Math.min(to, end[k]!) - Math.max(from, start[k]!));
    }
    return minutes;
  }
}
