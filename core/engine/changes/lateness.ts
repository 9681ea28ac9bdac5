import { NONE, type Rows } from '../../problem';
import type { Pricer } from '../cost';
import { rowsBy } from '../rows';
import type { View } from './view';

/** Runs that make way for a job at most. */
const MOST_AFTER = 40;

/** How far back along what a late run waits for, and how many runs before it on a machine are put after it, at most. */
const BACK = 6;
const OVERTAKEN = 3;
const OVERTAKEN_MANY = 12;

/** Changes that aim at jobs being in time, and at the end of the plan where all of them are. */
export class LatenessChanges {
  private readonly jobRuns: Rows;

  constructor(
    private readonly view: View,
    private readonly pricer: Pricer,
  ) {
    this.jobRuns = rowsBy(view.problem.runJob, view.problem.jobCount);
  }

  /** Takes a run that a late job waits for and puts it before the runs that stand in its way on the machine. */
  hurry(): boolean {
    const { view } = this;
    const { random, repair, chosen } = view;
    let run = this.runToHurry();
    if (run === NONE) return false;
    let before = run;
    for (let steps = random.below(BACK); steps > 0 && before !== NONE; steps--) {
      run = before;
      before = this.waitedFor(run);
    }
    if (!repair.canLift(run)) return false;
    const bookings = view.bookingsOf(run);
    const at = view.indexOf(run, bookings);
    const reach = 1 + random.below(random.next() < 0.3 ? OVERTAKEN_MANY : OVERTAKEN);
    chosen.length = 0;
    chosen.push(run);
    for (let i = Math.max(0, at - reach); i < at; i++) view.choose(bookings.run[i]!);
    return view.liftChosen();
  }

  /**
   * Puts a late job first from one of its runs on: what is cut from then until the job is finished goes back after it, in
   * its order.
   */
  hurryJob(): boolean {
    const { view } = this;
    const { problem, board, random, repair, chosen } = view;
    const { start, placed, off } = board.schedule;
    const last = this.runToHurry();
    if (last === NONE) return false;
    const job = problem.runJob[last]!;
    const own = this.jobRuns.items
      .subarray(this.jobRuns.start[job]!, this.jobRuns.start[job + 1]!)
      .filter((run) => placed[run] === 1 && repair.canLift(run))
      .sort((a, b) => start[a]! - start[b]!);
    if (own.length === 0) return false;
    const from = start[own[random.below(own.length)]!]! - random.below(1440);
    const until = off[last]!;
    const others: number[] = [];
    for (let run = 0; run < problem.runCount; run++) {
      const isWithin = placed[run] === 1 && start[run]! >= from && start[run]! < until;
      if (isWithin && problem.runJob[run] !== job && repair.canLift(run)) others.push(run);
    }
    others.sort((a, b) => start[a]! - start[b]!);
    chosen.length = 0;
    for (const run of own) if (start[run]! >= from) chosen.push(run);
    chosen.push(...others.slice(0, MOST_AFTER));
    return view.liftChosen();
  }

  /** The run that is off last of the late job at or after a random one; without any, of the job that is off last. */
  private runToHurry(): number {
    const { problem, random, board } = this.view;
    const { jobFinish } = this.pricer;
    const { start, items } = this.jobRuns;
    const first = random.below(problem.jobCount);
    let job = NONE;
    for (let i = 0; i < problem.jobCount; i++) {
      const candidate = (first + i) % problem.jobCount;
      if (jobFinish[candidate]! > problem.due[candidate]! && problem.jobWeight[candidate]! > 0) {
        job = candidate;
        break;
      }
      if (job === NONE || jobFinish[candidate]! > jobFinish[job]!) job = candidate;
    }
    let latest = NONE;
    for (let i = start[job]!; i < start[job + 1]!; i++) {
      const run = items[i]!;
      if (!this.view.isPlaced(run)) continue;
      if (latest === NONE || board.schedule.off[run]! > board.schedule.off[latest]!) latest = run;
    }
    return latest;
  }

  /** The run whose end is nearest before this one's beginning, among its predecessors and the one before it on its machine. */
  private waitedFor(run: number): number {
    const { problem, board } = this.view;
    const { schedule } = board;
    let nearest = NONE;
    let nearestEnd = problem.now;
    for (let i = problem.before.start[run]!; i < problem.before.start[run + 1]!; i++) {
      const previous = problem.before.items[i]!;
      if (schedule.off[previous]! > nearestEnd) {
        nearest = previous;
        nearestEnd = schedule.off[previous]!;
      }
    }
    const bookings = this.view.bookingsOf(run);
    const at = this.view.indexOf(run, bookings);
    // An attendance to tools is no run to hurry.
    if (at > 0 && bookings.end[at - 1]! > nearestEnd) nearest = Math.max(NONE, bookings.run[at - 1]!);
    return nearest;
  }
}
