import { NONE, type Problem } from '../problem';
import type { Interval } from '../time';
import type { Board } from './board';
import type { Pricer } from './cost';
import type { Random } from './random';
import type { Recipe } from './recipe';
import type { Schedule } from './schedule';

/** The small changes of a recipe that the search tries. They look at the schedule built last to see where one may help. */
export class Changes {
  private readonly critical: Int32Array;
  /** Runs with more than one option. */
  private readonly flexible: Int32Array;
  private readonly position: Int32Array;
  /** Unattended stretches whose hours have a price. */
  private readonly nights: readonly Interval[];

  constructor(
    private readonly problem: Problem,
    private readonly board: Board,
    private readonly pricer: Pricer,
    private readonly random: Random,
    private readonly recipe: Recipe,
  ) {
    const { tonight, laterNights } = problem.shop.weights;
    const isTonight = (s: Interval) => s.end === problem.tonight?.end;
    this.nights = problem.unattended.filter((s) => (isTonight(s) ? tonight > 0 : laterNights > 0));
    this.critical = new Int32Array(problem.runCount);
    this.position = new Int32Array(problem.runCount);
    this.flexible = Int32Array.from({ length: problem.runCount }, (_, run) => run).filter(
      (run) => problem.optionFirst[run + 1]! - problem.optionFirst[run]! > 1,
    );
  }

  /** Makes one change to the recipe, of a kind drawn by chance. */
  make(): void {
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

  /** An order by chance, with nothing chosen, kept or waited for. */
  shuffle(): void {
    const { recipe, random } = this;
    for (let i = recipe.order.length - 1; i > 0; i--) this.move(i, random.below(i + 1));
    recipe.choice.fill(NONE);
    recipe.notBefore.fill(0);
    recipe.linger.fill(0);
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
