import { NONE, type Rows } from '../../problem';
import type { Interval } from '../../time';
import type { Bookings } from '../bookings';
import { rowsBy } from '../rows';
import type { View } from './view';

/** Machines looked at before one whose night is not full is given up. */
const DRAWS = 6;

/** Changes that aim at the hours cut in unattended stretches, and at machines still cutting at their end. */
export class NightChanges {
  /** Unattended stretches whose hours have a price. */
  private readonly nights: readonly Interval[];
  /** The options on each machine, and the run each option is of. */
  private readonly machineOptions: Rows;
  private readonly optionRun: Int32Array;

  constructor(private readonly view: View) {
    const { problem } = view;
    const { tonight, laterNights } = problem.shop.weights;
    const isTonight = (s: Interval) => s.end === problem.tonight?.end;
    this.nights = problem.unattended.filter((s) => (isTonight(s) ? tonight > 0 : laterNights > 0));
    this.machineOptions = rowsBy(problem.optionMachine, problem.machineCount);
    this.optionRun = new Int32Array(problem.optionMachine.length);
    for (let run = 0; run < problem.runCount; run++) {
      this.optionRun.fill(run, problem.optionFirst[run]!, problem.optionFirst[run + 1]!);
    }
  }

  /**
   * Lets a run begin its cut with a night, or so that it ends with it, alone or with another run of its machine after
   * it; or lets one that waits for a night wait no longer. What stands there makes room.
   */
  keepForNight(): boolean {
    const { view } = this;
    const { problem, board, random, repair } = view;
    const { schedule } = board;
    const run = view.anyRun();
    if (random.next() < 0.3) return this.waitNoLonger(run);
    const night = this.nights[random.below(this.nights.length)];
    if (night === undefined || !view.isPlaced(run) || !repair.canLift(run)) return false;
    const bookings = view.bookingsOf(run);
    const beside = random.next() < 0.4 ? lengthOfAnother(bookings, run, random.below(bookings.count)) : 0;
    const length = schedule.end[run]! - schedule.start[run]! + beside;
    const from = Math.max(problem.now, random.next() < 0.6 ? night.start : night.end - length);
    this.putFrom(run, from, bookings, length);
    return true;
  }

  private waitNoLonger(from: number): boolean {
    const { notBefore } = this.view.repair.wishes;
    for (let i = 0; i < notBefore.length; i++) {
      const run = (from + i) % notBefore.length;
      if (notBefore[run] === 0) continue;
      this.view.repair.touch(run);
      notBefore[run] = 0;
      this.view.repair.lift(run);
      return true;
    }
    return false;
  }

  /** Puts a run that can be cut on a machine whose night is not full where that night is empty. */
  fillNight(): boolean {
    const { view, machineOptions } = this;
    const { problem, board, random, repair } = view;
    const night = this.nights[random.below(this.nights.length)];
    if (night === undefined) return false;
    const machine = this.machineWithRoom(night);
    const count = machineOptions.start[machine + 1]! - machineOptions.start[machine]!;
    if (count === 0) return false;
    const option = machineOptions.items[machineOptions.start[machine]! + random.below(count)]!;
    const run = this.optionRun[option]!;
    if (!repair.canLift(run)) return false;
    repair.touch(run);
    repair.wishes.choice[run] = option;
    const bookings = board.slots.machines[machine]!;
    const length = problem.optionCut[option]!;
    this.putFrom(run, this.emptyFrom(bookings, night, length), bookings, length);
    return true;
  }

  /**
   * Puts what a machine cuts in a night in the order of good hours for odds to block it, p·h/(1-p) largest first: best
   * where nothing else decides (Sequencing unreliable jobs on parallel machines, J. Scheduling 12, 2009).
   */
  orderByOdds(): boolean {
    const { view } = this;
    const { problem, board, random, chosen } = view;
    const night = this.nights[random.below(this.nights.length)];
    if (night === undefined) return false;
    view.chooseWithin(board.slots.machines[random.below(problem.machineCount)]!, night.start, night.end, NONE);
    if (chosen.length < 2) return false;
    chosen.sort((a, b) => this.worth(b) - this.worth(a) || a - b);
    return view.liftChosen();
  }

  private worth(run: number): number {
    const { problem, board } = this.view;
    const good = 1 - problem.block[run]!;
    const hours = (board.schedule.end[run]! - board.schedule.start[run]!) * (1 - problem.loss[run]!);
    return good === 1 ? Number.MAX_VALUE : (good * hours) / (1 - good);
  }

  private machineWithRoom(night: Interval): number {
    const { problem, board, random } = this.view;
    let machine = NONE;
    for (let draw = 0; draw < DRAWS; draw++) {
      machine = random.below(problem.machineCount);
      if (problem.isBench[machine] === 0 && !cutsThrough(board.slots.machines[machine]!, night)) break;
    }
    return machine;
  }

  /** After what the machine cuts in the night already, or with the night, or so as to end with it. */
  private emptyFrom(bookings: Bookings, night: Interval, length: number): number {
    const { problem, random } = this.view;
    const how = random.next();
    if (how < 0.25) return Math.max(problem.now, night.start);
    if (how < 0.5) return Math.max(problem.now, night.end - length);
    const next = bookings.firstEndingAfter(night.end - 1);
    const cutUntil = next > 0 ? bookings.end[next - 1]! : night.start;
    return Math.max(problem.now, night.start, cutUntil);
  }

  /** Puts a run where it begins at `from` at the earliest, before those that are cut there now. */
  private putFrom(run: number, from: number, bookings: Bookings, length: number): void {
    const { view } = this;
    view.repair.touch(run);
    view.repair.wishes.notBefore[run] = from;
    view.chooseWithin(bookings, from, from + length, run);
    view.repair.lift(run);
    view.liftChosen();
  }
}

/** Minutes of the run at an index, or 0 if that is `run` itself. */
function lengthOfAnother(bookings: Bookings, run: number, index: number): number {
  return bookings.run[index] === run ? 0 : bookings.end[index]! - bookings.start[index]!;
}

function cutsThrough(bookings: Bookings, night: Interval): boolean {
  const i = bookings.firstEndingAfter(night.end - 1);
  return i < bookings.count && bookings.start[i]! <= night.start;
}
