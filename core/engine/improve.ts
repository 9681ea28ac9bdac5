import { NONE, type Problem } from '../problem';
import type { Interval } from '../time';
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
  private readonly dearestHour: number;
  private readonly rounds: number;
  /** Unattended stretches whose hours have a price. */
  private readonly nights: readonly Interval[];
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
    const isTonight = (s: Interval) => s.end === problem.tonight?.end;
    this.nights = problem.unattended.filter((s) => (isTonight(s) ? tonight > 0 : laterNights > 0));
    this.dearestHour = Math.max(lateness, tonight, laterNights, finish);
    this.rounds = problem.runCount <= SMALL ? SMALL_ROUNDS : 1;
    this.recipe = cloneRecipe(begin);
    this.current = this.price();
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
    if (total < this.current) this.take(total);
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
    if (worse <= 0) return true;
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
      this.keepForNight();
    } else if (kind < 0.76) {
      this.leaveOn();
    } else {
      this.moveRun();
    }
  }

  /**
   * Lets a run begin its cut with a night that counts, or so that it ends with it, alone or with another run of its
   * machine after it; or lets one that waits for a night wait no longer.
   */
  private keepForNight(): void {
    const { recipe, problem, board, random } = this;
    const { schedule } = board;
    const from = random.below(recipe.order.length);
    if (random.next() < 0.4) {
      const waiting = firstWhere(recipe.notBefore, from, (minute) => minute > 0);
      if (waiting !== NONE) recipe.notBefore[waiting] = 0;
      return;
    }
    if (schedule.placed[from] === 0) return;
    const start = schedule.start[from]!;
    const night = this.nights.find((s) => s.end > start);
    if (night === undefined) return;
    recipe.anchor[from] = NONE;
    const isFirst = random.next() < 0.6;
    const length = schedule.end[from]! - start + (random.next() < 0.4 ? this.lengthBeside(from) : 0);
    recipe.notBefore[from] = Math.max(problem.now, isFirst ? night.start : night.end - length);
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
  private leaveOn(): void {
    const { recipe, board, random } = this;
    const { schedule } = board;
    const run = random.below(recipe.order.length);
    if (random.next() < 0.4) {
      const staying = firstWhere(recipe.linger, run, (minutes) => minutes > 0);
      if (staying !== NONE) recipe.linger[staying] = 0;
      return;
    }
    if (schedule.placed[run] === 0 || schedule.unloadPerson[run] === NONE) return;
    recipe.anchor[run] = NONE;
    const bookings = board.slots.people[schedule.unloadPerson[run]!]!;
    const next = bookings.firstEndingAfter(schedule.off[run]!) + random.below(2);
    if (next < bookings.count) recipe.linger[run] = bookings.end[next]! - schedule.end[run]!;
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

/** First index from `from` on, round the end, whose value is wanted; NONE if there is none. */
function firstWhere(values: Int32Array, from: number, isWanted: (value: number) => boolean): number {
  for (let i = 0; i < values.length; i++) {
    const index = (from + i) % values.length;
    if (isWanted(values[index]!)) return index;
  }
  return NONE;
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
