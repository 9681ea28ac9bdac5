import { NONE } from '../../problem';
import { forgetWishes } from '../wishes';
import type { View } from './view';

/** Most runs lifted together, when many are; mostly it is a few. */
const MANY = 12;
const FEW = 4;

/** Machines looked at together. */
const ABREAST = 4;

/** Changes of who goes where and in which order, whatever they may be good for. */
export class OrderChanges {
  /** Runs with more than one option. */
  private readonly flexible: Int32Array;

  constructor(private readonly view: View) {
    const { runCount, optionFirst } = view.problem;
    this.flexible = Int32Array.from({ length: runCount }, (_, run) => run).filter(
      (run) => optionFirst[run + 1]! - optionFirst[run]! > 1,
    );
  }

  /** A run anew, wherever it is through first or on a machine of its own drawn by chance. */
  moveElsewhere(): boolean {
    const { flexible, view } = this;
    const { random, repair } = view;
    const isFlexible = flexible.length > 0 && random.next() < 0.7;
    const run = isFlexible ? flexible[random.below(flexible.length)]! : view.anyRun();
    if (!repair.canLift(run)) return false;
    repair.touch(run);
    // What was worth waiting for on one machine may not be on another.
    if (random.next() < 0.5) forgetWishes(repair.wishes, run);
    repair.wishes.choice[run] = this.anyOption(run);
    repair.lift(run);
    // What follows on the same parts goes along and is anew as well: it may stand where this run should be.
    if (random.next() < 0.3) view.liftFollowers(run);
    return true;
  }

  private anyOption(run: number): number {
    const { problem, random } = this.view;
    const first = problem.optionFirst[run]!;
    const count = problem.optionFirst[run + 1]! - first;
    const pick = random.below(count + 1);
    return pick === count ? NONE : first + pick;
  }

  /** Runs that follow each other on a machine anew, one of them first, or in any order, or as they were but closer. */
  reorder(): boolean {
    const { view } = this;
    const { random, chosen } = view;
    const run = view.anyRun();
    chosen.length = 0;
    if (!view.isPlaced(run)) {
      chosen.push(run);
      return view.liftChosen();
    }
    const bookings = view.bookingsOf(run);
    const from = view.indexOf(run, bookings);
    const length = 2 + random.below(random.next() < 0.2 ? MANY : FEW);
    for (let i = from; i < Math.min(bookings.count, from + length); i++) view.choose(bookings.run[i]!);
    const how = random.next();
    if (how < 0.5) view.moveChosen(random.below(chosen.length), 0);
    else if (how < 0.75) view.shuffleChosen();
    return view.liftChosen();
  }

  /** What starts next on a few machines anew, in order of start but for one. */
  reorderAcross(): boolean {
    const { view } = this;
    const { random, chosen, problem, board } = view;
    const run = view.anyRun();
    if (!view.isPlaced(run)) return false;
    const { start } = board.schedule;
    const from = start[run]!;
    const length = 3 + random.below(random.next() < 0.2 ? 2 * MANY : MANY / 2);
    const isSmall = problem.machineCount <= ABREAST;
    chosen.length = 0;
    for (let i = 0; i < Math.min(problem.machineCount, ABREAST); i++) {
      const machine = isSmall ? i : random.below(problem.machineCount);
      const bookings = i === 0 && !isSmall ? view.bookingsOf(run) : board.slots.machines[machine]!;
      const first = bookings.firstEndingAfter(from);
      for (let k = first; k < Math.min(bookings.count, first + length); k++) {
        if (!chosen.includes(bookings.run[k]!)) view.choose(bookings.run[k]!);
      }
    }
    chosen.sort((a, b) => start[a]! - start[b]! || a - b);
    chosen.length = Math.min(chosen.length, length);
    if (random.next() < 0.7) view.moveChosen(random.below(chosen.length), random.below(chosen.length));
    return view.liftChosen();
  }

  /** Two runs anew, the later one first, sometimes with a third between them. */
  swap(): boolean {
    const { view } = this;
    const { random, board, problem, chosen } = view;
    const a = view.anyRun();
    let b = view.anyRun();
    for (let draw = 0; draw < 4 && problem.runGroup[a] === problem.runGroup[b]; draw++) b = view.anyRun();
    const isLater = board.schedule.start[b]! > board.schedule.start[a]!;
    chosen.length = 0;
    chosen.push(isLater ? b : a);
    if (random.next() < 0.3) chosen.push(view.anyRun());
    chosen.push(isLater ? a : b);
    return view.liftChosen();
  }

  /** All runs of one operation anew, before a few others or the other way round. */
  moveOperation(): boolean {
    const { view } = this;
    const { problem, random, chosen } = view;
    const group = problem.runGroup[view.anyRun()]!;
    chosen.length = 0;
    for (let run = 0; run < problem.runCount; run++) if (problem.runGroup[run] === group) chosen.push(run);
    for (let extra = random.below(FEW + 1); extra > 0; extra--) chosen.push(view.anyRun());
    if (random.next() < 0.5) chosen.reverse();
    return view.liftChosen();
  }
}
