import { NONE, type Problem } from '../problem';
import type { Board, Recipe } from './board';
import type { Pricer } from './cost';
import type { Random } from './random';
import type { Schedule } from './schedule';

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

/** Chance to take a change that costs nothing and gains nothing: it may open a way. */
const DRIFT = 0.3;

/** Totals nearer than this are equal. */
const EQUAL = 1e-9;

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
  private current: number;
  private currentFlow: number;
  private bestFlow: number;
  private readonly dearestHour: number;
  private readonly rounds: number;
  private round = 0;
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
    const { lateness, tonight, laterNights, finish } = problem.shop.weights;
    this.dearestHour = Math.max(lateness, tonight, laterNights, finish);
    this.rounds = problem.runCount <= SMALL ? SMALL_ROUNDS : 1;
    this.recipe = cloneRecipe(begin);
    this.current = this.price();
    this.currentFlow = pricer.flow;
    this.bestFlow = pricer.flow;
    this.bestTotal = this.current;
    this.bestRecipe = cloneRecipe(begin);
    this.undoRecipe = cloneRecipe(begin);
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
    if (this.isBetter(total, this.current, this.currentFlow)) this.take(total);
    else copyRecipe(this.undoRecipe, this.recipe);
  }

  /** Tries one change; `progress` is how far the search has come towards its limit, 0 to 1. */
  step(progress: number): void {
    this.steps++;
    const cooled = progress * this.rounds - this.round;
    if (cooled >= 1) {
      this.beginAfresh();
      return;
    }
    copyRecipe(this.recipe, this.undoRecipe);
    this.change();
    const total = this.price();
    if (this.isWelcome(total, cooled)) this.take(total);
    else copyRecipe(this.undoRecipe, this.recipe);
  }

  /** From an order by chance, as if nothing were known. */
  private beginAfresh(): void {
    const { recipe, random } = this;
    this.round++;
    for (let i = recipe.order.length - 1; i > 0; i--) this.move(i, random.below(i + 1));
    recipe.choice.fill(NONE);
    recipe.notBefore.fill(0);
    recipe.linger.fill(0);
    this.take(this.price());
  }

  private isWelcome(total: number, cooled: number): boolean {
    const worse = total - this.current;
    if (worse < -EQUAL) return true;
    if (worse < EQUAL) return this.pricer.flow <= this.currentFlow || this.random.next() < DRIFT;
    const temperature = this.dearestHour * HOT * (COLD / HOT) ** cooled;
    return this.random.next() < Math.exp(-worse / temperature);
  }

  private change(): void {
    const { random, recipe } = this;
    const kind = random.next();
    if (kind < 0.18 && this.flexible.length > 0) {
      const run = this.flexible[random.below(this.flexible.length)]!;
      recipe.choice[run] = this.anotherOption(run);
      recipe.anchor[run] = NONE;
    } else if (kind < 0.48) {
      this.hurryCritical();
    } else if (kind < 0.6) {
      this.moveOperation();
    } else if (kind < 0.62) {
      recipe.anchor.fill(NONE);
    } else if (kind < 0.7) {
      this.keepForNight(random.below(recipe.order.length));
    } else if (kind < 0.76) {
      this.leaveOn(random.below(recipe.order.length));
    } else {
      this.moveRun();
    }
  }

  /**
   * Lets a run begin its cut with the next night, or so that it ends with that night, alone or with another run of its
   * machine after it; or no longer wait for any of these.
   */
  private keepForNight(run: number): void {
    const { recipe, problem, board, random } = this;
    const { schedule } = board;
    recipe.anchor[run] = NONE;
    recipe.notBefore[run] = 0;
    if (schedule.placed[run] === 0 || random.next() < 0.4) return;
    const start = schedule.start[run]!;
    const night = problem.unattended.find((s) => s.end > start);
    if (night === undefined) return;
    if (random.next() < 0.6) {
      recipe.notBefore[run] = night.start;
      return;
    }
    const length = schedule.end[run]! - start + (random.next() < 0.4 ? this.lengthBeside(run) : 0);
    recipe.notBefore[run] = Math.max(problem.now, night.end - length);
  }

  /** Minutes of some other run on the same machine, 0 if a few draws find none. */
  private lengthBeside(run: number): number {
    const { problem, board, random } = this;
    const { schedule } = board;
    const machine = problem.optionMachine[schedule.option[run]!];
    for (let draw = 0; draw < 8; draw++) {
      const other = random.below(problem.runCount);
      if (other === run || schedule.placed[other] === 0) continue;
      if (problem.optionMachine[schedule.option[other]!] === machine)
        return schedule.end[other]! - schedule.start[other]!;
    }
    return 0;
  }

  /** Leaves a run on until the hand that took it off has done the next thing, or no longer. */
  private leaveOn(run: number): void {
    const { recipe, board, random } = this;
    const { schedule } = board;
    recipe.anchor[run] = NONE;
    recipe.linger[run] = 0;
    if (schedule.placed[run] === 0 || schedule.unloadPerson[run] === NONE || random.next() < 0.3) return;
    const bookings = board.slots.people[schedule.unloadPerson[run]!]!;
    const next = bookings.firstEndingAfter(schedule.off[run]!) + random.below(2);
    if (next < bookings.count) recipe.linger[run] = bookings.end[next]! - schedule.end[run]!;
  }

  private price(): number {
    this.board.build(this.recipe);
    return this.pricer.price(this.board.schedule, this.board.slots.people);
  }

  /** Of two equal totals the one whose machines are through sooner is better: nobody likes to see them wait. */
  private isBetter(total: number, than: number, thanFlow: number): boolean {
    return total < than - EQUAL || (total < than + EQUAL && this.pricer.flow < thanFlow);
  }

  private take(total: number): void {
    this.current = total;
    this.currentFlow = this.pricer.flow;
    if (!this.isBetter(total, this.bestTotal, this.bestFlow)) return;
    this.bestTotal = total;
    this.bestFlow = this.currentFlow;
    copyRecipe(this.recipe, this.bestRecipe);
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

function cloneRecipe(recipe: Recipe): Recipe {
  return {
    order: recipe.order.slice(),
    choice: recipe.choice.slice(),
    anchor: recipe.anchor.slice(),
    notBefore: recipe.notBefore.slice(),
    linger: recipe.linger.slice(),
  };
}

function copyRecipe(from: Recipe, to: Recipe): void {
  to.order.set(from.order);
  to.choice.set(from.choice);
  to.anchor.set(from.anchor);
  to.notBefore.set(from.notBefore);
  to.linger.set(from.linger);
}
