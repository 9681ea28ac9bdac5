import { NONE, type Problem } from '../problem';
import { AloneRule } from './alone';
import { take, takeCare } from './book';
import { type Conflict, noteConflicts, placeHeld } from './held';
import type { Recipe } from './recipe';
import { canRepeat } from './repeat';
import { RoomFinder } from './room';
import { boundMachine, copySchedule, earliestOn, emptySchedule, type Schedule } from './schedule';
import { NEVER, type OwnAttendance, Slots } from './slots';
import type { Stay } from './stay';
import { noWishes, type Wishes } from './wishes';

const NOBODY: OwnAttendance = { person: NONE, end: -NEVER, spot: 0 };

/**
 * Builds a schedule run by run: each takes the earliest room that is left by those before it. What stands on the
 * floor is put down first and never moves.
 */
export class Board {
  readonly slots: Slots;
  readonly schedule: Schedule;
  readonly conflicts: Conflict[] = [];
  private readonly finder: RoomFinder;
  private readonly alone: AloneRule;
  /** The choices of the recipe being built, and no other wish. */
  private wishes: Wishes;
  private readonly anywhere: Wishes;
  /** Runs found to have no room in this build. */
  private readonly isLeft: Uint8Array;

  /** `earlier`: schedules of plans made before, which recipes may name. */
  constructor(
    readonly problem: Problem,
    readonly earlier: Schedule[] = [],
  ) {
    this.slots = new Slots(problem);
    this.schedule = emptySchedule(problem);
    this.finder = new RoomFinder(problem, this.slots, this.schedule);
    this.alone = new AloneRule(problem, this.slots, this.schedule);
    this.isLeft = new Uint8Array(problem.runCount);
    this.anywhere = noWishes(problem.runCount);
    this.wishes = this.anywhere;
  }

  /**
   * Makes the schedule of a recipe. A run whose predecessors come later in the order brings them forward.
   * `equipLoaded` is called when what is held has been put down.
   */
  build(recipe: Recipe, equipLoaded: () => void): void {
    this.begin(recipe, equipLoaded);
    const { order } = recipe;
    for (let i = 0; i < order.length; i++) this.place(order[i]!, recipe);
    noteConflicts(this.problem, this.schedule, this.conflicts);
  }

  /**
   * Leaves every run where the recipe's earlier schedule has it, as far as it can be there beside what is held and beside
   * those before it in the order. Returns the others, which are not placed; conflicts are not noted yet.
   */
  keep(recipe: Recipe, equipLoaded: () => void): number[] {
    const { problem, schedule } = this;
    this.begin(recipe, equipLoaded);
    const others: number[] = [];
    for (const run of recipe.order) {
      if (schedule.placed[run] === 1) continue;
      if (this.repeat(run, recipe)) {
        this.finder.room.writeTo(schedule, run);
        take(problem, this.slots, schedule, run);
      } else others.push(run);
    }
    return others;
  }

  private begin(recipe: Recipe, equipLoaded: () => void): void {
    this.slots.clear();
    this.schedule.placed.fill(0);
    this.schedule.careMachine.fill(NONE);
    this.schedule.isShort.fill(0);
    this.isLeft.fill(0);
    this.conflicts.length = 0;
    this.wishes = { ...this.anywhere, choice: recipe.choice };
    const placeBefore = (run: number) => this.placeBefore(run, recipe);
    placeHeld(this.problem, this.slots, this.schedule, this.conflicts, equipLoaded, placeBefore);
    if (recipe.cares !== null) this.keepCares(recipe.cares);
  }

  /** Makes a schedule made before again, with the conflicts it had. */
  restore(schedule: Schedule, conflicts: readonly Conflict[]): void {
    const { problem, slots } = this;
    slots.clear();
    copySchedule(schedule, this.schedule);
    for (let run = 0; run < problem.runCount; run++) {
      if (schedule.placed[run] === 1) take(problem, slots, schedule, run);
    }
    for (let care = 0; care < problem.careCount; care++) {
      if (schedule.careMachine[care] !== NONE) takeCare(problem, slots, schedule, care);
    }
    this.conflicts.splice(0, this.conflicts.length, ...conflicts);
  }

  /** Reports held runs that cannot be where they are held; to be called when the attendances to tools are in. */
  noteConflicts(): void {
    const { problem, schedule, conflicts } = this;
    // What could not be given its tools may have been left out since the schedule was built.
    noteConflicts(problem, schedule, conflicts);
    for (let run = 0; run < problem.runCount; run++) {
      if (schedule.isShort[run] === 0 || conflicts.some((conflict) => conflict.run === run)) continue;
      const say = `${problem.runIds[run]} is held where a tool it needs runs out and nobody can replace it before; preset one, or lock the run to a later start`;
      conflicts.push({ run, say });
    }
  }

  private keepCares(from: Schedule): void {
    const { problem, slots, schedule } = this;
    for (let care = 0; care < problem.careCount; care++) {
      const machine = from.careMachine[care]!;
      if (machine === NONE) continue;
      const [person, start, end] = [from.carePerson[care]!, from.careStart[care]!, from.careEnd[care]!];
      const isFree =
        start >= problem.now &&
        slots.machines[machine]!.isFree(start, end) &&
        slots.isOpen(machine, start, end) &&
        slots.isPersonFree(person, start, end - start, problem.workSpot[machine]!, NONE, NOBODY);
      // What is loaded may have got one already, under any number.
      const free = schedule.careMachine.indexOf(NONE);
      if (!isFree || free === NONE) continue;
      schedule.careMachine[free] = machine;
      schedule.carePerson[free] = person;
      schedule.careStart[free] = start;
      schedule.careEnd[free] = end;
      takeCare(problem, slots, schedule, free);
    }
  }

  /** A locked run's predecessors, and the one it is locked behind, go first: only then can its lock hold. */
  private placeBefore(run: number, recipe: Recipe): void {
    const { before, follows, firstPieceRun } = this.problem;
    if (firstPieceRun[run] !== NONE) this.place(firstPieceRun[run]!, recipe);
    if (follows[run] !== NONE) this.place(follows[run]!, recipe);
    for (let i = before.start[run]!; i < before.start[run + 1]!; i++) this.place(before.items[i]!, recipe);
  }

  /** Puts a run down where the recipe has it or in the first room, with what must come before it; false if there is none. */
  place(run: number, recipe: Recipe): boolean {
    const { problem, schedule, finder } = this;
    if (schedule.placed[run] === 1) return true;
    if (this.isLeft[run] === 1) return false;
    const { start, items } = problem.before;
    for (let i = start[run]!; i < start[run + 1]!; i++) if (!this.place(items[i]!, recipe)) return this.leave(run);
    const firstPiece = problem.firstPieceRun[run]!;
    if (firstPiece !== NONE && !this.place(firstPiece, recipe)) return this.leave(run);
    const first = problem.follows[run]!;
    if (first !== NONE && !this.place(first, recipe)) return this.leave(run);
    if (!this.repeat(run, recipe) && !this.find(run)) return this.leave(run);
    finder.room.writeTo(schedule, run);
    take(problem, this.slots, schedule, run);
    return true;
  }

  /** Where the machine chosen before would keep a held run waiting, any other will do. */
  private find(run: number): boolean {
    const { finder, problem, schedule } = this;
    const isFound = finder.find(run, this.wishes);
    const isSoonEnough = isFound && !keepsWaiting(problem, schedule, finder.room, run);
    return isSoonEnough || this.wishes.choice[run] === NONE ? isFound : finder.find(run, this.anywhere);
  }

  private repeat(run: number, recipe: Recipe): boolean {
    const { finder } = this;
    const anchor = recipe.anchor[run]!;
    if (anchor === NONE) return false;
    finder.room.readFrom(this.earlier[anchor]!, run);
    const on = earliestOn(this.problem, this.schedule, run);
    const { option, start, end } = finder.room;
    const bound = boundMachine(this.problem, this.schedule, run);
    if (bound !== NONE && bound !== this.problem.optionMachine[option]) return false;
    if (keepsWaiting(this.problem, this.schedule, finder.room, run)) return false;
    if (this.alone.soonest(run, option, start, end) > start) return false;
    return canRepeat(this.problem, this.slots, finder.room, run, on, Math.max(on, finder.earliestCut(run)));
  }

  private leave(run: number): boolean {
    this.isLeft[run] = 1;
    return false;
  }
}

/** True if a run that is put down already, and so held, could not follow on this one there. */
function keepsWaiting(problem: Problem, schedule: Schedule, room: Stay, run: number): boolean {
  const { start, items } = problem.after;
  for (let i = start[run]!; i < start[run + 1]!; i++) {
    const next = items[i]!;
    if (schedule.placed[next] === 1 && schedule.on[next]! < room.off + problem.lag[next]!) return true;
  }
  const followers = problem.followers;
  for (let i = followers.start[run]!; i < followers.start[run + 1]!; i++) {
    const next = followers.items[i]!;
    if (schedule.placed[next] === 1 && schedule.start[next]! < room.end) return true;
  }
  if (room.checkStart === NONE) return false;
  const checked = room.checkStart + problem.checkMinutes[run]!;
  return problem.firstPieceRun.some(
    (first, next) => first === run && schedule.placed[next] === 1 && schedule.start[next]! < checked,
  );
}
