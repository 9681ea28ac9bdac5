import { NONE, type Problem } from '../problem';
import type { Board } from './board';
import { Changes } from './changes';
import type { Pricer } from './cost';
import type { Conflict } from './held';
import type { Nearness } from './nearness';
import { recipeOfOrder } from './orders';
import type { Random } from './random';
import type { Recipe } from './recipe';
import { Repair } from './repair';
import { copySchedule, emptySchedule, type Schedule } from './schedule';

/**
 * Simulated annealing (Kirkpatrick, Gelatt & Vecchi, Science 220, 1983): a change that costs more is taken with chance
 * exp(-cost / temperature). The temperature falls from the first to the second figure while the search goes from its
 * beginning to its limit. They are hours of the dearest kind: that of late, night and finish hours that weighs most.
 */
const HOT = 1.5;
const COLD = 0.005;

/** Runs up to which a shop is small: its search settles soon, so it is begun afresh and cooled so many times. */
const SMALL = 20;
const SMALL_ROUNDS = 8;

/** Minutes before its place in a plan from which on a run that cannot stay there looks for room, one after the other. */
const BACK = [0, 60, 240, 720, 1440, 2880];

/**
 * Improves the schedule on a board by changes that lift a few runs and put them back elsewhere. One call of {@link step}
 * is one change tried.
 */
export class Improver {
  bestTotal = Number.POSITIVE_INFINITY;
  readonly best: Schedule;
  /** The locks that cannot hold in the best schedule. */
  bestConflicts: readonly Conflict[] = [];

  private current = Number.POSITIVE_INFINITY;
  private readonly kept: Schedule;
  private readonly dearestHour: number;
  private readonly rounds: number;
  private round = 0;
  private readonly repair: Repair;
  private readonly changes: Changes;

  constructor(
    private readonly problem: Problem,
    private readonly board: Board,
    private readonly pricer: Pricer,
    private readonly random: Random,
    /** What the plan is to stay near to, if that goes before its cost. */
    nearness: Nearness | null,
  ) {
    const { lateness, tonight, laterNights, finish } = problem.shop.weights;
    this.dearestHour = Math.max(lateness, tonight, laterNights, finish);
    this.rounds = problem.runCount <= SMALL && nearness === null ? SMALL_ROUNDS : 1;
    this.best = emptySchedule(problem);
    this.kept = emptySchedule(problem);
    this.repair = new Repair(problem, board);
    this.changes = new Changes(problem, board, pricer, random, this.repair, nearness);
  }

  /** The best schedule as an order of starts that respects the routes, and the options taken. */
  sequence(): [order: Int32Array, option: Int32Array] {
    const { start, option } = this.best;
    const order = Int32Array.from({ length: this.problem.runCount }, (_, run) => run).sort(
      (a, b) => start[a]! - start[b]! || a - b,
    );
    return [order, option.slice()];
  }

  /** Goes on from another recipe's schedule if that is better than where the search stands. */
  offer(recipe: Recipe): void {
    const { board, kept } = this;
    copySchedule(board.schedule, kept);
    const conflicts = [...board.conflicts];
    board.build(recipe, this.repair.equipLoaded);
    this.repair.equipAnew();
    const total = this.price();
    if (total < this.current) {
      this.take(total);
      return;
    }
    board.restore(kept, conflicts);
    this.price();
  }

  /**
   * Begins with the plan to stay near to, which a recipe repeats: what makes way for the locks goes as near to its place
   * there as room is left.
   */
  beginNear(nearness: Nearness, recipe: Recipe): void {
    const { board, repair } = this;
    const others = board.keep(recipe, repair.equipLoaded);
    repair.stayNear(nearness.times);
    for (const run of others) {
      if (repair.canLift(run)) this.putNear(nearness, run);
      else board.place(run, recipe);
    }
    board.noteConflicts();
    repair.mendAnew();
    this.take(this.price());
  }

  /** Wherever it is nearest, with what has to make way for it in turn: on its machine or another one, later or before. */
  private putNear(nearness: Nearness, run: number): void {
    const { repair } = this;
    const home = repair.wishes.choice[run]!;
    const from = repair.wishes.notBefore[run]!;
    let [option, begin] = [home, from];
    let least = this.tryNear(nearness, run, option, begin);
    for (const back of BACK) {
      for (const other of [home, NONE]) {
        if (back >= least || (back === 0 && other === home)) continue;
        repair.takeBack();
        const distance = this.tryNear(nearness, run, other, from - back);
        if (distance >= least) continue;
        least = distance;
        option = other;
        begin = from - back;
      }
    }
    repair.takeBack();
    this.tryNear(nearness, run, option, begin);
  }

  /** Puts a run in the first room on an option from a minute on; returns the distance of all that this moves. */
  private tryNear(nearness: Nearness, run: number, option: number, from: number): number {
    const { repair, board } = this;
    repair.begin();
    repair.touch(run);
    repair.wishes.choice[run] = option;
    repair.wishes.notBefore[run] = from;
    repair.lift(run);
    repair.putBack();
    const touched = repair.touched.subarray(0, repair.touchedCount);
    return touched.reduce((sum, one) => sum + nearness.distance(board.schedule, one), 0);
  }

  /** As {@link offer}, for what another search has found: only if it is better by more than chance brings at this progress. */
  join(recipe: Recipe, total: number, progress: number): void {
    if (this.bestTotal - total <= this.temperature(progress * this.rounds - this.round)) return;
    this.repair.forget();
    this.offer(recipe);
  }

  /** Tries one change; `progress` is how far the search has come towards its limit, 0 to 1. */
  step(progress: number): void {
    const cooled = progress * this.rounds - this.round;
    if (cooled >= 1) {
      this.beginAfresh();
      return;
    }
    const { schedule } = this.board;
    const { people } = this.board.slots;
    const isPossible = this.changes.make();
    this.markTouched();
    const total = isPossible ? this.pricer.priceMarked(schedule, people) : Number.POSITIVE_INFINITY;
    if (this.isWelcome(total, cooled)) {
      this.take(total);
      return;
    }
    this.markTouched();
    this.repair.takeBack();
  }

  /** Both where the runs of this change were and where they are. */
  private markTouched(): void {
    const { repair, pricer, board } = this;
    for (let i = 0; i < repair.touchedCount; i++) {
      const run = repair.touched[i]!;
      pricer.mark(repair.before, run);
      pricer.mark(board.schedule, run);
    }
    for (const care of repair.touchedCares) {
      pricer.markCare(repair.before, care);
      pricer.markCare(board.schedule, care);
    }
  }

  /** From an order by chance, as if nothing were known. */
  private beginAfresh(): void {
    this.round++;
    const order = Int32Array.from({ length: this.problem.runCount }, (_, run) => run);
    for (let i = order.length - 1; i > 0; i--) {
      const j = this.random.below(i + 1);
      [order[i], order[j]] = [order[j]!, order[i]!];
    }
    this.repair.forget();
    this.board.build(recipeOfOrder(order), this.repair.equipLoaded);
    this.repair.equipAnew();
    this.take(this.price());
  }

  private isWelcome(total: number, cooled: number): boolean {
    const worse = total - this.current;
    if (worse <= 0) return true;
    return this.random.next() < Math.exp(-worse / this.temperature(cooled));
  }

  /** What a change may cost more by chance, at a share of the cooling. */
  private temperature(cooled: number): number {
    return this.dearestHour * HOT * (COLD / HOT) ** cooled;
  }

  private price(): number {
    return this.pricer.price(this.board.schedule, this.board.slots.people);
  }

  private take(total: number): void {
    this.current = total;
    if (total >= this.bestTotal) return;
    this.bestTotal = total;
    copySchedule(this.board.schedule, this.best);
    this.bestConflicts = [...this.board.conflicts];
  }
}
