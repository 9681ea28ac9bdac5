import { FREE, LOADED, LOCKED, NONE, type Problem } from '../problem';
import { book } from './book';
import { type Conflict, noteConflicts, placeHeld } from './held';
import { Placement } from './placement';
import type { Recipe } from './recipe';
import { canRepeat } from './repeat';
import { emptySchedule, type Schedule } from './schedule';
import { Slots } from './slots';
import { Stay } from './stay';

/**
 * Builds a schedule run by run: each takes the earliest room that is left by those before it. What stands on the
 * floor is put down first and never moves.
 */
export class Board {
  readonly slots: Slots;
  readonly schedule: Schedule;
  readonly conflicts: Conflict[] = [];
  private readonly trial: Placement;
  private readonly best: Stay;
  /** Runs found to have no room in this build. */
  private readonly isLeft: Uint8Array;

  /** `earlier`: schedules of plans made before, which recipes may name. */
  constructor(
    readonly problem: Problem,
    readonly earlier: Schedule[] = [],
  ) {
    this.slots = new Slots(problem);
    this.schedule = emptySchedule(problem);
    this.trial = new Placement(problem, this.slots);
    this.best = new Stay();
    this.isLeft = new Uint8Array(problem.runCount);
  }

  /**
   * Makes the schedule of a recipe. A run whose predecessors come later in the order brings them forward.
   */
  build(recipe: Recipe): void {
    this.slots.clear();
    this.schedule.placed.fill(0);
    this.isLeft.fill(0);
    this.conflicts.length = 0;
    placeHeld(this.problem, this.slots, this.schedule, this.conflicts, (run) => this.placeBefore(run, recipe));
    const { order } = recipe;
    for (let i = 0; i < order.length; i++) this.place(order[i]!, recipe);
    noteConflicts(this.problem, this.schedule, this.conflicts);
  }

  /** A locked run's predecessors go first: only then can its lock hold. */
  private placeBefore(run: number, recipe: Recipe): void {
    const { start, items } = this.problem.before;
    for (let i = start[run]!; i < start[run + 1]!; i++) this.place(items[i]!, recipe);
  }

  private place(run: number, recipe: Recipe): boolean {
    const { problem, schedule } = this;
    if (schedule.placed[run] === 1) return true;
    if (this.isLeft[run] === 1) return false;
    let notBefore = problem.earliest[run]!;
    const { start, items } = problem.before;
    for (let i = start[run]!; i < start[run + 1]!; i++) {
      const previous = items[i]!;
      if (!this.place(previous, recipe)) return this.leave(run);
      notBefore = Math.max(notBefore, schedule.off[previous]! + problem.lag[run]!);
    }
    const firstPiece = problem.firstPieceRun[run]!;
    let startAfter = notBefore;
    if (firstPiece !== NONE) {
      if (!this.place(firstPiece, recipe)) return this.leave(run);
      const checked = schedule.checkStart[firstPiece]!;
      if (checked !== NONE) startAfter = Math.max(startAfter, checked + problem.checkMinutes[firstPiece]!);
    }
    const anchor = recipe.anchor[run]!;
    this.trial.linger = recipe.linger[run]!;
    startAfter = Math.max(startAfter, recipe.notBefore[run]!);
    const isRepeated = anchor !== NONE && this.repeat(run, this.earlier[anchor]!, notBefore, startAfter);
    if (!isRepeated && !this.findBest(run, notBefore, startAfter, recipe.choice[run]!)) return this.leave(run);
    book(problem, this.slots, schedule, run, this.best);
    return true;
  }

  private repeat(run: number, earlier: Schedule, notBefore: number, startAfter: number): boolean {
    this.best.readFrom(earlier, run);
    return canRepeat(this.problem, this.slots, this.best, run, notBefore, startAfter);
  }

  private leave(run: number): boolean {
    this.isLeft[run] = 1;
    return false;
  }

  private findBest(run: number, notBefore: number, startAfter: number, choice: number): boolean {
    const { problem, trial, best } = this;
    const state = problem.state[run]!;
    const pallet = state === FREE ? NONE : problem.heldPallet[run]!;
    const held = state === LOCKED || state === LOADED ? problem.heldOption[run]! : NONE;
    const only = held !== NONE ? held : choice;
    let found = false;
    const first = only === NONE ? problem.optionFirst[run]! : only;
    const last = only === NONE ? problem.optionFirst[run + 1]! : only + 1;
    for (let option = first; option < last; option++) {
      if (!trial.find(run, option, notBefore, startAfter, pallet, state === LOADED)) continue;
      if (found && (trial.end > best.end || (trial.end === best.end && trial.off >= best.off))) continue;
      trial.copyTo(best);
      found = true;
    }
    return found;
  }
}
