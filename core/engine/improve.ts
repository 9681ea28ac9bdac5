import { NONE, type Problem } from '../problem';
import type { Board, Recipe } from './board';
import type { Pricer } from './cost';
import type { Random } from './random';
import type { Schedule } from './schedule';

/** Prices remembered: a change is taken if it beats the price of so many steps ago (late acceptance: Burke & Bykov 2017). */
const MEMORY = 40;

/** Steps without a new best after which the search goes back to the best and starts from there afresh. */
const PATIENCE = 1_500;

/**
 * Improves an order of runs and the choice of machines by small changes, building the whole schedule anew after each.
 * One call of {@link step} is one change tried.
 */
export class Improver {
  bestTotal: number;
  steps = 0;

  private readonly recipe: Recipe;
  readonly bestRecipe: Recipe;
  private readonly undoRecipe: Recipe;
  private readonly memory = new Float64Array(MEMORY);
  private current: number;
  private sinceBest = 0;
  private readonly critical: Int32Array;
  /** Runs with more than one option. */
  private readonly flexible: Int32Array;
  private readonly position: Int32Array;

  constructor(
    private readonly problem: Problem,
    private readonly board: Board,
    private readonly pricer: Pricer,
    private readonly random: Random,
    begin: Recipe,
  ) {
    this.recipe = cloneRecipe(begin);
    this.current = this.price();
    this.bestTotal = this.current;
    this.bestRecipe = cloneRecipe(begin);
    this.undoRecipe = cloneRecipe(begin);
    this.memory.fill(this.current);
    this.critical = new Int32Array(problem.runCount);
    this.position = new Int32Array(problem.runCount);
    this.flexible = Int32Array.from({ length: problem.runCount }, (_, run) => run).filter(
      (run) => problem.optionFirst[run + 1]! - problem.optionFirst[run]! > 1,
    );
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

  /** Tries one change. */
  step(): void {
    this.steps++;
    copyRecipe(this.recipe, this.undoRecipe);
    this.change();
    const total = this.price();
    const slot = this.steps % MEMORY;
    if (total <= this.current || total < this.memory[slot]!) this.take(total);
    else copyRecipe(this.undoRecipe, this.recipe);
    if (this.current < this.memory[slot]!) this.memory[slot] = this.current;
    if (++this.sinceBest > PATIENCE) this.returnToBest();
  }

  private change(): void {
    const { random, recipe } = this;
    const kind = random.next();
    if (kind < 0.2 && this.flexible.length > 0) {
      const run = this.flexible[random.below(this.flexible.length)]!;
      recipe.choice[run] = this.anotherOption(run);
      recipe.anchor[run] = NONE;
    } else if (kind < 0.55) {
      this.hurryCritical();
    } else if (kind < 0.7) {
      this.moveOperation();
    } else if (kind < 0.72) {
      recipe.anchor.fill(NONE);
    } else {
      this.moveRun();
    }
  }

  private price(): number {
    this.board.build(this.recipe);
    return this.pricer.price(this.board.schedule, this.board.slots.people);
  }

  private take(total: number): void {
    this.current = total;
    if (total >= this.bestTotal - 1e-9) return;
    this.bestTotal = total;
    this.sinceBest = 0;
    copyRecipe(this.recipe, this.bestRecipe);
  }

  private returnToBest(): void {
    this.sinceBest = 0;
    copyRecipe(this.bestRecipe, this.recipe);
    this.current = this.bestTotal;
    // A little slack lets the search leave the best by another way than it came.
    this.memory.fill(this.bestTotal + 0.02 * Math.abs(this.bestTotal) + 0.1);
  }

  private anotherOption(run: number): number {
    const first = this.problem.optionFirst[run]!;
    const count = this.problem.optionFirst[run + 1]! - first;
    const pick = this.random.below(count + 1);
    return pick === count ? NONE : first + pick;
  }

  private moveRun(): void {
    const count = this.recipe.order.length;
    const from = this.random.below(count);
    // Mostly near, sometimes anywhere.
    const reach = this.random.next() < 0.7 ? Math.min(count, 12) : count;
    const to = Math.min(count - 1, Math.max(0, from + this.random.below(2 * reach + 1) - reach));
    this.move(from, to);
  }

  /** Moves all runs of one operation together, keeping their order. */
  private moveOperation(): void {
    const { problem, random } = this;
    const { order } = this.recipe;
    const group = problem.runGroup[order[random.below(order.length)]!]!;
    let to = random.below(order.length);
    for (let i = 0; i < order.length; i++) {
      if (problem.runGroup[order[i]!] !== group) continue;
      this.move(i, to);
      if (i < to) i--;
      to = Math.min(to + 1, order.length - 1);
      if (random.next() < 0.05) break;
    }
  }

  /**
   * Takes a run that a late job, or the end of the plan, waits for and puts it before the run that stands in its way
   * on the machine.
   */
  private hurryCritical(): void {
    const { board, position, random } = this;
    const { order } = this.recipe;
    const { schedule } = board;
    const count = this.traceCritical();
    if (count < 2) {
      this.moveRun();
      return;
    }
    for (let i = 0; i < order.length; i++) position[order[i]!] = i;
    const at = random.below(count - 1);
    const later = this.critical[at]!;
    const earlier = this.critical[at + 1]!;
    if (schedule.placed[later] === 0 || position[later]! < position[earlier]!) {
      this.moveRun();
      return;
    }
    this.move(position[later]!, position[earlier]!);
  }

  /** From a late (or the last) run back through what each waited for; the length of that chain. */
  private traceCritical(): number {
    const { problem, board, critical, random, pricer } = this;
    const { schedule } = board;
    let run = this.runToHurry(random.below(problem.jobCount), pricer.jobFinish);
    let count = 0;
    while (run !== NONE && count < critical.length) {
      critical[count++] = run;
      run = this.waitedFor(run, schedule);
    }
    return count;
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
  private waitedFor(run: number, schedule: Schedule): number {
    const { problem } = this;
    const machine = problem.optionMachine[schedule.option[run]!]!;
    const start = schedule.start[run]!;
    let nearest = NONE;
    let nearestEnd = problem.now;
    for (let i = problem.before.start[run]!; i < problem.before.start[run + 1]!; i++) {
      const previous = problem.before.items[i]!;
      if (schedule.off[previous]! > nearestEnd) {
        nearest = previous;
        nearestEnd = schedule.off[previous]!;
      }
    }
    for (let other = 0; other < problem.runCount; other++) {
      if (schedule.placed[other] === 0 || problem.optionMachine[schedule.option[other]!] !== machine) continue;
      if (schedule.end[other]! <= start && schedule.end[other]! > nearestEnd) {
        nearest = other;
        nearestEnd = schedule.end[other]!;
      }
    }
    return nearest;
  }

  private move(from: number, to: number): void {
    const { order, anchor } = this.recipe;
    const run = order[from]!;
    anchor[run] = NONE;
    if (from < to) order.copyWithin(from, from + 1, to + 1);
    else order.copyWithin(to + 1, to, from);
    order[to] = run;
  }
}

function cloneRecipe({ order, choice, anchor }: Recipe): Recipe {
  return { order: order.slice(), choice: choice.slice(), anchor: anchor.slice() };
}

function copyRecipe(from: Recipe, to: Recipe): void {
  to.order.set(from.order);
  to.choice.set(from.choice);
  to.anchor.set(from.anchor);
}
