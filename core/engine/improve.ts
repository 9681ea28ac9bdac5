import type { Problem } from '../problem';
import type { Board } from './board';
import { Changes } from './changes';
import type { Pricer } from './cost';
import type { Random } from './random';
import { cloneRecipe, copyRecipe, type Recipe } from './recipe';

/**
 * Simulated annealing (Kirkpatrick, Gelatt & Vecchi, Science 220, 1983): a change that costs more is taken with chance
 * exp(-cost / temperature). The temperature falls from the first to the second figure while the search goes from its
 * beginning to its limit. They are hours of the dearest kind: that of late, night and finish hours that weighs most.
 */
const HOT = 0.15;
const COLD = 0.01;

/** Runs up to which a shop is small: its search settles soon, so it is begun afresh and cooled so many times. */
const SMALL = 20;
const SMALL_ROUNDS = 8;

/**
 * Improves an order of runs and the choice of machines by small changes, building the whole schedule anew after each.
 * One call of {@link step} is one change tried.
 */
export class Improver {
  bestTotal: number;
  readonly bestRecipe: Recipe;

  private readonly recipe: Recipe;
  private readonly undoRecipe: Recipe;
  private current: number;
  private readonly dearestHour: number;
  private readonly rounds: number;
  private round = 0;
  private readonly changes: Changes;

  constructor(
    private readonly problem: Problem,
    private readonly board: Board,
    private readonly pricer: Pricer,
    private readonly random: Random,
    begin: Recipe,
  ) {
    const { lateness, tonight, laterNights, finish } = problem.shop.weights;
    this.dearestHour = Math.max(lateness, tonight, laterNights, finish);
    this.rounds = problem.runCount <= SMALL ? SMALL_ROUNDS : 1;
    this.recipe = cloneRecipe(begin);
    this.current = this.price();
    this.bestTotal = this.current;
    this.bestRecipe = cloneRecipe(begin);
    this.undoRecipe = cloneRecipe(begin);
    this.changes = new Changes(problem, board, pricer, random, this.recipe);
  }

  /** The best schedule as an order of starts that respects the routes, and the options taken. */
  sequence(): [order: Int32Array, option: Int32Array] {
    const { problem, board } = this;
    board.build(this.bestRecipe);
    const { start, option } = board.schedule;
    const order = Int32Array.from({ length: problem.runCount }, (_, run) => run).sort(
      (a, b) => start[a]! - start[b]! || a - b,
    );
    return [order, option.slice()];
  }

  /** Starts again from another recipe if that is better than where the search stands. */
  offer(recipe: Recipe): void {
    copyRecipe(this.recipe, this.undoRecipe);
    copyRecipe(recipe, this.recipe);
    const total = this.price();
    if (total < this.current) this.take(total);
    else copyRecipe(this.undoRecipe, this.recipe);
  }

  /** Tries one change; `progress` is how far the search has come towards its limit, 0 to 1. */
  step(progress: number): void {
    const cooled = progress * this.rounds - this.round;
    if (cooled >= 1) {
      this.beginAfresh();
      return;
    }
    copyRecipe(this.recipe, this.undoRecipe);
    this.changes.make();
    const total = this.price();
    if (this.isWelcome(total, cooled)) this.take(total);
    else copyRecipe(this.undoRecipe, this.recipe);
  }

  /** From an order by chance, as if nothing were known. */
  private beginAfresh(): void {
    this.round++;
    this.changes.shuffle();
    this.take(this.price());
  }

  private isWelcome(total: number, cooled: number): boolean {
    const worse = total - this.current;
    if (worse <= 0) return true;
    const temperature = this.dearestHour * HOT * (COLD / HOT) ** cooled;
    return this.random.next() < Math.exp(-worse / temperature);
  }

  private price(): number {
    this.board.build(this.recipe);
    return this.pricer.price(this.board.schedule, this.board.slots.people);
  }

  private take(total: number): void {
    this.current = total;
    if (total >= this.bestTotal) return;
    this.bestTotal = total;
    copyRecipe(this.recipe, this.bestRecipe);
  }
}
