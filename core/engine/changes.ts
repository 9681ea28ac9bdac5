import { NONE, type Problem } from '../problem';
import type { Interval } from '../time';
import type { Board } from './board';
import type { Bookings } from './bookings';
import type { Pricer } from './cost';
import type { Random } from './random';
import type { Repair } from './repair';

/** Most runs lifted from one machine in one change. */
const LONGEST = 12;

/** The changes the search tries: which runs are lifted, in which order and with which wishes they are put back. */
export class Changes {
  /** Runs with more than one option. */
  private readonly flexible: Int32Array;
  /** Unattended stretches whose hours have a price. */
  private readonly nights: readonly Interval[];
  private readonly chosen: number[] = [];

  constructor(
    private readonly problem: Problem,
    private readonly board: Board,
    private readonly pricer: Pricer,
    private readonly random: Random,
    private readonly repair: Repair,
  ) {
    const { tonight, laterNights } = problem.shop.weights;
    const isTonight = (s: Interval) => s.end === problem.tonight?.end;
    this.nights = problem.unattended.filter((s) => (isTonight(s) ? tonight > 0 : laterNights > 0));
    this.flexible = Int32Array.from({ length: problem.runCount }, (_, run) => run).filter(
      (run) => problem.optionFirst[run + 1]! - problem.optionFirst[run]! > 1,
    );
  }

  /** Makes one change of a kind drawn by chance; false if it must be taken back. */
  make(): boolean {
    const { random, repair } = this;
    repair.begin();
    const kind = random.next();
    if (kind < 0.15) this.moveElsewhere();
    else if (kind < 0.4) this.hurryLate();
    else if (kind < 0.65) this.reorder();
    else if (kind < 0.72) this.swap();
    else if (kind < 0.9) this.keepForNight();
    else if (kind < 0.95) this.leaveOn();
    else this.moveOperation();
    return repair.mend();
  }

  private anyRun(): number {
    return this.random.below(this.problem.runCount);
  }

  private bookingsOf(run: number): Bookings {
    const { problem, board } = this;
    return board.slots.machines[problem.optionMachine[board.schedule.option[run]!]!]!;
  }

  /** The place of a run among the bookings of its machine. */
  private placeOf(run: number, bookings: Bookings): number {
    const { start, end } = this.board.schedule;
    let i = bookings.firstEndingAfter(start[run]!);
    while (i < bookings.count && bookings.run[i] !== run && bookings.start[i]! < end[run]!) i++;
    return i;
  }

  /** A run anew, on another machine of its own if it has any, before whatever stood in its way. */
  private moveElsewhere(): void {
    const { flexible, random, repair } = this;
    const run = flexible.length > 0 && random.next() < 0.7 ? flexible[random.below(flexible.length)]! : this.anyRun();
    repair.touch(run);
    repair.wishes.choice[run] = this.anotherOption(run);
    repair.lift(run);
  }

  private anotherOption(run: number): number {
    const first = this.problem.optionFirst[run]!;
    const count = this.problem.optionFirst[run + 1]! - first;
    const pick = this.random.below(count + 1);
    return pick === count ? NONE : first + pick;
  }

  /** Lifts runs that follow each other on a machine and puts them back in another order, or as before but closer. */
  private reorder(): void {
    const { board, random, chosen } = this;
    const run = this.anyRun();
    if (board.schedule.placed[run] === 0) {
      this.repair.lift(run);
      return;
    }
    const bookings = this.bookingsOf(run);
    const from = this.placeOf(run, bookings);
    const length = 2 + random.below(random.next() < 0.2 ? LONGEST : 4);
    chosen.length = 0;
    for (let i = from; i < Math.min(bookings.count, from + length); i++) chosen.push(bookings.run[i]!);
    const how = random.next();
    if (how < 0.5) {
      // One of them goes first.
      const [first] = chosen.splice(random.below(chosen.length), 1);
      if (first !== undefined) chosen.unshift(first);
    } else if (how < 0.75) {
      this.shuffleChosen();
    }
    this.liftChosen();
  }

  private shuffleChosen(): void {
    const { chosen, random } = this;
    for (let i = chosen.length - 1; i > 0; i--) {
      const j = random.below(i + 1);
      [chosen[i], chosen[j]] = [chosen[j]!, chosen[i]!];
    }
  }

  private liftChosen(): void {
    for (const run of this.chosen) this.repair.lift(run);
  }

  /** Two runs anew, the later one first. */
  private swap(): void {
    const { random, board, repair, problem } = this;
    const a = this.anyRun();
    let b = this.anyRun();
    for (let draw = 0; draw < 4 && problem.runGroup[a] === problem.runGroup[b]; draw++) b = this.anyRun();
    const isLater = board.schedule.start[b]! > board.schedule.start[a]!;
    repair.lift(isLater ? b : a);
    if (random.next() < 0.3) {
      const extra = this.anyRun();
      repair.lift(extra);
    }
    repair.lift(isLater ? a : b);
  }

  /** All runs of one operation anew, after or before some others. */
  private moveOperation(): void {
    const { problem, random, repair, chosen } = this;
    const group = problem.runGroup[this.anyRun()]!;
    chosen.length = 0;
    for (let run = 0; run < problem.runCount; run++) if (problem.runGroup[run] === group) chosen.push(run);
    for (let extra = random.below(5); extra > 0; extra--) chosen.push(this.anyRun());
    if (random.next() < 0.5) chosen.reverse();
    for (const run of chosen) repair.lift(run);
  }

  /**
   * Takes a run that a late job, or the end of the plan, waits for and puts it before the runs that stand in its way on
   * the machine.
   */
  private hurryLate(): void {
    const { problem, random, repair, pricer } = this;
    let run = this.runToHurry(random.below(problem.jobCount), pricer.jobFinish);
    if (run === NONE) {
      this.reorder();
      return;
    }
    // Somewhere back along what the run waits for.
    let steps = random.below(6);
    for (let before = run; steps > 0 && before !== NONE; steps--) {
      run = before;
      before = this.waitedFor(run);
    }
    const bookings = this.bookingsOf(run);
    const at = this.placeOf(run, bookings);
    const reach = 1 + random.below(random.next() < 0.3 ? LONGEST : 3);
    repair.lift(run);
    const first = Math.max(0, at - reach);
    this.chosen.length = 0;
    // Lifting it closed the gap: what was before it is still at its place.
    for (let i = first; i < at; i++) this.chosen.push(bookings.run[i]!);
    this.liftChosen();
  }

  private runToHurry(job: number, jobFinish: Int32Array): number {
    const { problem, board } = this;
    let target = NONE;
    // The late job at or after a random one; without any, the job that is off last.
    for (let i = 0; i < problem.jobCount; i++) {
      const candidate = (job + i) % problem.jobCount;
      if (jobFinish[candidate]! > problem.due[candidate]! && problem.jobWeight[candidate]! > 0) {
        target = candidate;
        break;
      }
    }
    let latest = NONE;
    for (let run = 0; run < problem.runCount; run++) {
      if (board.schedule.placed[run] === 0 || (target !== NONE && problem.runJob[run] !== target)) continue;
      if (latest === NONE || board.schedule.off[run]! > board.schedule.off[latest]!) latest = run;
    }
    return latest;
  }

  /** The run whose end is nearest before this one's beginning, among its predecessors and those on its machine. */
  private waitedFor(run: number): number {
    const { problem, board } = this;
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
    const bookings = this.bookingsOf(run);
    const at = this.placeOf(run, bookings);
    if (at > 0 && bookings.end[at - 1]! > nearestEnd) nearest = bookings.run[at - 1]!;
    return nearest;
  }

  /**
   * Lets a run begin its cut with a night that counts, or so that it ends with it, alone or with another run of its
   * machine after it; or lets one that waits for a night wait no longer. What stands there makes room.
   */
  private keepForNight(): void {
    const { repair, problem, board, random, chosen } = this;
    const { schedule } = board;
    const { notBefore } = repair.wishes;
    const run = this.anyRun();
    if (random.next() < 0.3) {
      const waiting = firstWhere(notBefore, run, (minute) => minute > 0);
      if (waiting === NONE) return;
      repair.touch(waiting);
      notBefore[waiting] = 0;
      repair.lift(waiting);
      return;
    }
    if (schedule.placed[run] === 0 || !repair.canLift(run)) return;
    const night = this.nights[random.below(this.nights.length)];
    if (night === undefined) return;
    repair.touch(run);
    const length = schedule.end[run]! - schedule.start[run]! + (random.next() < 0.4 ? this.lengthBeside(run) : 0);
    const from = Math.max(problem.now, random.next() < 0.6 ? night.start : night.end - length);
    notBefore[run] = from;
    const bookings = this.bookingsOf(run);
    chosen.length = 0;
    for (let i = bookings.firstEndingAfter(from); i < bookings.count && bookings.start[i]! < from + length; i++) {
      if (bookings.run[i] !== run) chosen.push(bookings.run[i]!);
    }
    repair.lift(run);
    this.liftChosen();
  }

  /** Minutes of some other run on the same machine, 0 if it is alone there. */
  private lengthBeside(run: number): number {
    const bookings = this.bookingsOf(run);
    const i = this.random.below(bookings.count);
    return bookings.run[i] === run ? 0 : bookings.end[i]! - bookings.start[i]!;
  }

  /** Leaves a run on until the hand that took it off has done the next thing, or no longer. */
  private leaveOn(): void {
    const { repair, board, random } = this;
    const { schedule } = board;
    const { linger } = repair.wishes;
    const run = this.anyRun();
    if (random.next() < 0.4) {
      const staying = firstWhere(linger, run, (minutes) => minutes > 0);
      if (staying === NONE) return;
      repair.touch(staying);
      linger[staying] = 0;
      repair.lift(staying);
      return;
    }
    if (schedule.placed[run] === 0 || schedule.unloadPerson[run] === NONE || !repair.canLift(run)) return;
    const bookings = board.slots.people[schedule.unloadPerson[run]!]!;
    const next = bookings.firstEndingAfter(schedule.off[run]!) + random.below(2);
    if (next >= bookings.count) return;
    repair.touch(run);
    linger[run] = bookings.end[next]! - schedule.end[run]!;
    repair.lift(run);
  }
}

/** First index from `from` on, round the end, whose value is wanted; NONE if there is none. */
function firstWhere(values: Int32Array, from: number, isWanted: (value: number) => boolean): number {
  for (let i = 0; i < values.length; i++) {
    const index = (from + i) % values.length;
    if (isWanted(values[index]!)) return index;
  }
  return NONE;
}
