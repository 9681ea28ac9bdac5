import { isHeld, NONE, type Problem, type Rows } from '../problem';
import type { Board } from './board';
import { careOfBooking, giveBack, giveBackCare, take, takeCare } from './book';
import { Equipper } from './equip';
import { fixedRuns, isMetric } from './fixed';
import type { PlannedTimes } from './nearness';
import { RoomFinder } from './room';
import { rowsBy } from './rows';
import { copyCare, copyRun, emptySchedule, machineOf, optionOn, type Schedule } from './schedule';
import { copyWishes, forgetWishes, noWishes, type Wishes } from './wishes';

/** Walks mended in a schedule built anew, where a way over a third spot is shorter than the straight one. */
const MOST_WALKS = 60;

/**
 * Lifts runs out of the board's schedule and puts them back elsewhere, each in the earliest room the others leave; what
 * stays where it is costs nothing. A run that can no longer follow one put before it is lifted as well. One change is
 * everything from {@link begin} on, and can be taken back whole.
 */
export class Repair {
  readonly wishes: Wishes;
  /** Runs of this change, in the order in which they were first lifted. */
  readonly touched: Int32Array;
  touchedCount = 0;
  /** Where the runs of this change were before it. */
  readonly before: Schedule;

  /** Attendances to tools that this change makes or takes out, in the order of that. */
  readonly touchedCares: number[] = [];

  private readonly schedule: Schedule;
  private readonly isCareTouched: Uint8Array;
  /** Null where no run needs a tool. */
  private readonly equipper: Equipper | null;
  private readonly finder: RoomFinder;
  private readonly wishesBefore: Wishes;
  private readonly isTouched: Uint8Array;
  private readonly isLeft: Uint8Array;
  private readonly isFixed: Uint8Array;
  /** Runs that wait for each run's first-piece check. */
  private readonly waiting: Rows;
  /** All runs that wait for each one, in any way. */
  private readonly followersOf: readonly Rows[];
  private readonly queue: number[] = [];
  private readonly isMetric: boolean;
  /** The one of two attendances with too little time between them, found last, that can be put elsewhere. */
  private unreached = NONE;

  constructor(
    private readonly problem: Problem,
    private readonly board: Board,
  ) {
    const { runCount } = problem;
    this.schedule = board.schedule;
    this.finder = new RoomFinder(problem, board.slots, board.schedule);
    this.before = emptySchedule(problem);
    this.wishes = noWishes(runCount);
    this.wishesBefore = noWishes(runCount);
    this.touched = new Int32Array(runCount);
    this.isTouched = new Uint8Array(runCount);
    this.isLeft = new Uint8Array(runCount);
    this.isCareTouched = new Uint8Array(problem.careCount);
    this.equipper = problem.tools === null ? null : new Equipper(problem, problem.tools, board, this);
    this.waiting = rowsBy(problem.firstPieceRun, runCount);
    this.followersOf = [problem.after, this.waiting, problem.followers];
    this.isFixed = fixedRuns(problem);
    this.isMetric = isMetric(problem);
  }

  /** Begins another change; the one before stands. */
  begin(): void {
    const { touched, isTouched, isLeft, queue } = this;
    for (let i = 0; i < this.touchedCount; i++) isTouched[touched[i]!] = isLeft[touched[i]!] = 0;
    this.touchedCount = 0;
    for (const care of this.touchedCares) this.isCareTouched[care] = 0;
    this.touchedCares.length = 0;
    this.equipper?.forget();
    queue.length = 0;
  }

  /** No run has a wish any more. */
  forget(): void {
    this.begin();
    for (let run = 0; run < this.problem.runCount; run++) forgetWishes(this.wishes, run);
  }

  /** Every run wishes for its machine and time in a plan: there it goes back to, or as soon after it as there is room. */
  stayNear(times: PlannedTimes): void {
    const { problem, wishes } = this;
    for (let run = 0; run < problem.runCount; run++) {
      if (times.machine[run] === NONE) continue;
      wishes.choice[run] = optionOn(problem, run, times.machine[run]!);
      wishes.notBefore[run] = times.start[run]!;
    }
  }

  canLift(run: number): boolean {
    return this.isFixed[run] === 0;
  }

  /** Takes a run out, to be put back when its turn comes; nothing if it cannot move. */
  lift(run: number): void {
    if (this.isFixed[run] === 0) this.takeOut(run);
  }

  private takeOut(run: number): void {
    const { schedule } = this;
    this.touch(run);
    if (schedule.placed[run] === 1) {
      this.markMachineOf(run);
      giveBack(this.problem, this.board.slots, schedule, run);
      schedule.placed[run] = 0;
    }
    this.queue.push(run);
  }

  /** Notes a run's wishes, to change them in this change. */
  touch(run: number): void {
    if (this.isTouched[run] === 1) return;
    this.isTouched[run] = 1;
    this.touched[this.touchedCount++] = run;
    copyRun(this.schedule, this.before, run);
    copyWishes(this.wishes, this.wishesBefore, run);
  }

  /** Puts back what was lifted, in the order of lifting, predecessors first. False if the change must be taken back. */
  mend(): boolean {
    this.putBack();
    if (this.equipper !== null && !this.equipper.mend()) return false;
    return this.isMetric || this.canWalk();
  }

  /** Gives a schedule built anew its attendances to tools; what cannot be helped is left out. It counts as no change. */
  equipAnew(): void {
    if (this.equipper !== null) this.mendAnew();
  }

  /** As {@link equipAnew}, for a schedule in which runs have been lifted: that may have left a walk too short. */
  mendAnew(): void {
    this.begin();
    this.equipper?.mendAnew();
    if (!this.isMetric) this.mendWalks();
    this.board.noteConflicts();
    this.begin();
  }

  /** For the board, when it has put down what is held. */
  readonly equipLoaded = (): void => this.equipper?.equipLoaded();

  /** Puts back what has been lifted so far. */
  putBack(): void {
    const { queue } = this;
    for (let i = 0; i < queue.length; i++) this.put(queue[i]!);
    queue.length = 0;
  }

  /** True if the floor or a lock has the run where and when it is, so that it stays even where it breaks a rule. */
  isHeld(run: number): boolean {
    return isHeld(this.problem, run);
  }

  /** Takes a run that is not held out and everything that waits for it and is not, for good. */
  leaveOut(run: number): void {
    if (this.isHeld(run)) return;
    this.leaveOutWithFixed(run);
    this.putBack();
  }

  /** What must be through before a held run is fixed, and goes all the same if what it waits for goes. */
  private leaveOutWithFixed(run: number): void {
    const { schedule, isFixed } = this;
    this.takeOut(run);
    this.isLeft[run] = 1;
    this.liftWhatFollows(run);
    for (const { start, items } of this.followersOf) {
      for (let i = start[run]!; i < start[run + 1]!; i++) {
        const next = items[i]!;
        if (isFixed[next] === 1 && schedule.placed[next] === 1 && !this.isHeld(next)) this.leaveOutWithFixed(next);
      }
    }
  }

  /** The person and the machine must be free then. Its number, or NONE where a plan can hold no more of them. */
  addCare(machine: number, person: number, start: number, end: number): number {
    const { schedule } = this;
    const care = schedule.careMachine.indexOf(NONE);
    if (care === NONE) return NONE;
    this.touchCare(care);
    schedule.careMachine[care] = machine;
    schedule.carePerson[care] = person;
    schedule.careStart[care] = start;
    schedule.careEnd[care] = end;
    takeCare(this.problem, this.board.slots, schedule, care);
    this.equipper?.mark(machine);
    return care;
  }

  removeCare(care: number): void {
    const { schedule } = this;
    this.touchCare(care);
    this.equipper?.mark(schedule.careMachine[care]!);
    giveBackCare(this.board.slots, schedule, care);
    schedule.careMachine[care] = NONE;
  }

  /** Gives back the last minutes of an attendance, or all of it. */
  shortenCare(care: number, minutes: number): void {
    const { schedule } = this;
    if (minutes === 0) return;
    this.touchCare(care);
    giveBackCare(this.board.slots, schedule, care);
    schedule.careEnd[care]! -= minutes;
    if (schedule.careEnd[care] === schedule.careStart[care]) schedule.careMachine[care] = NONE;
    else takeCare(this.problem, this.board.slots, schedule, care);
  }

  private touchCare(care: number): void {
    if (this.isCareTouched[care] === 1) return;
    this.isCareTouched[care] = 1;
    this.touchedCares.push(care);
    copyCare(this.schedule, this.before, care);
  }

  private canMove(booked: number): boolean {
    return careOfBooking(booked) !== NONE || this.canLift(booked);
  }

  private markMachineOf(run: number): void {
    this.equipper?.mark(this.problem.optionMachine[this.schedule.option[run]!]!);
  }

  /** Everything as it was before this change. */
  takeBack(): void {
    const { problem, board, schedule, touched, touchedCount, before } = this;
    for (let i = 0; i < touchedCount; i++) {
      if (schedule.placed[touched[i]!] === 1) giveBack(problem, board.slots, schedule, touched[i]!);
    }
    for (const care of this.touchedCares) {
      if (schedule.careMachine[care] !== NONE) giveBackCare(board.slots, schedule, care);
      copyCare(before, schedule, care);
    }
    for (let i = 0; i < touchedCount; i++) {
      const run = touched[i]!;
      copyRun(before, schedule, run);
      copyWishes(this.wishesBefore, this.wishes, run);
      if (schedule.placed[run] === 1) take(problem, board.slots, schedule, run);
    }
    for (const care of this.touchedCares) {
      if (schedule.careMachine[care] !== NONE) takeCare(problem, board.slots, schedule, care);
    }
  }

  private put(run: number): boolean {
    const { problem, schedule, finder, wishes, isLeft } = this;
    if (schedule.placed[run] === 1) return true;
    // A run left out before this change has not been looked at yet.
    if (isLeft[run] === 1 || this.isFixed[run] === 1) return false;
    this.touch(run);
    const { start, items } = problem.before;
    let isPossible = true;
    for (let i = start[run]!; i < start[run + 1]!; i++) isPossible = this.put(items[i]!) && isPossible;
    const firstPiece = problem.firstPieceRun[run]!;
    if (firstPiece !== NONE) isPossible = this.put(firstPiece) && isPossible;
    const first = problem.follows[run]!;
    if (first !== NONE) isPossible = this.put(first) && isPossible;
    if (isPossible && finder.find(run, wishes)) {
      finder.room.writeTo(schedule, run);
      take(problem, this.board.slots, schedule, run);
      this.markMachineOf(run);
      this.liftWhatCannotFollow(run);
      return true;
    }
    isLeft[run] = 1;
    this.liftWhatFollows(run);
    return false;
  }

  private liftWhatCannotFollow(run: number): void {
    const { problem, schedule, waiting } = this;
    const { start, items } = problem.after;
    for (let i = start[run]!; i < start[run + 1]!; i++) {
      const next = items[i]!;
      if (schedule.placed[next] === 1 && schedule.on[next]! < schedule.off[run]! + problem.lag[next]!) this.lift(next);
    }
    this.liftLockedBehind(run);
    if (schedule.checkStart[run] === NONE) return;
    const checked = schedule.checkStart[run]! + problem.checkMinutes[run]!;
    for (let i = waiting.start[run]!; i < waiting.start[run + 1]!; i++) {
      const next = waiting.items[i]!;
      if (schedule.placed[next] === 1 && schedule.start[next]! < checked) this.lift(next);
    }
  }

  private liftLockedBehind(run: number): void {
    const { problem, schedule } = this;
    const { start, items } = problem.followers;
    for (let i = start[run]!; i < start[run + 1]!; i++) {
      const next = items[i]!;
      if (schedule.placed[next] === 0) continue;
      const isOnIt = machineOf(problem, schedule, next) === machineOf(problem, schedule, run);
      if (!isOnIt || schedule.start[next]! < schedule.end[run]!) this.lift(next);
    }
  }

  private liftWhatFollows(run: number): void {
    const { schedule } = this;
    for (const { start, items } of this.followersOf) {
      for (let i = start[run]!; i < start[run + 1]!; i++) {
        if (schedule.placed[items[i]!] === 1) this.lift(items[i]!);
      }
    }
  }

  /** What the attendances to tools have made unreachable is put elsewhere, or left out. */
  private mendWalks(): void {
    for (let tries = 0; tries < MOST_WALKS && !this.canWalk(); tries++) {
      const booked = this.unreached;
      const care = careOfBooking(booked);
      if (care !== NONE) this.removeCare(care);
      else if (tries < MOST_WALKS / 2) {
        this.lift(booked);
        this.putBack();
      } else this.leaveOut(booked);
      this.equipper?.mendAnew();
    }
  }

  /**
   * True if everybody can still walk from each attendance to the next. Where a way over a third spot is shorter than the
   * straight one, taking an attendance out may leave a walk too short.
   */
  private canWalk(): boolean {
    const { walk, spotCount } = this.problem;
    const { conflicts, slots } = this.board;
    for (const { count, start, end, spot, run } of slots.people) {
      for (let i = 1; i < count; i++) {
        if (end[i - 1]! + walk[spot[i - 1]! * spotCount + spot[i]!]! <= start[i]!) continue;
        const isHeld = this.isFixed[run[i - 1]!] === 1 && this.isFixed[run[i]!] === 1;
        // Locks that cannot hold are in each other's way from the beginning.
        if (isHeld && conflicts.length > 0) continue;
        this.unreached = this.canMove(run[i]!) ? run[i]! : run[i - 1]!;
        return false;
      }
    }
    return true;
  }
}
