import { NONE, type Problem, problemOf } from '../problem';
import { meetsBound, type Plan, type PlanBound, type Shop } from '../shop';
import { Allocation } from './allocate';
import { Board } from './board';
import { earliestFinish } from './bound';
import { Pricer } from './cost';
import { DisjunctiveSearch, machineShopOf } from './disjunctive';
import { Improver } from './improve';
import { type Finding, Meetings } from './meeting';
import { Nearness } from './nearness';
import type { EngineOptions, EngineProgress } from './options';
import { orderByLatestStart, orderByTail, recipeOfOrder, recipeOfSchedule, recipeOfSequence } from './orders';
import { Random } from './random';
import { readSchedule } from './read';
import type { Recipe } from './recipe';
import { cloneSchedule, type Schedule } from './schedule';
import { Settler } from './settle';
import { careActs } from './tool-ledger';
import { writePlan } from './write';

/** Milliseconds of search between two looks at the clock, the stop and the event loop. */
const SLICE = 20;
const REPORT_EVERY = 60;

/** The share of its time that the search gives at most to writing plans for others to see. */
const REPORT_SHARE = 0.05;

/** Milliseconds to settle the hands in while somebody waits, for the plan or for a stop to be heard; most shops need less. */
const SETTLING_MEANWHILE = 40;

/** Seconds each program of the allocation gets in any case, and at most. */
const LEAST_ALLOCATION = 2;
const MOST_ALLOCATION = 60;

/** Better by less is no better. */
const LEAST_GAIN = 1e-6;

/**
 * Plans the shop as of a moment: construct, allocate, improve until time or steps are used up, the bound is met or the
 * user stops it. The shop must be free of faults of level error. Resolves with the best plan found; a plan always
 * exists, at worst with runs left out.
 */
export async function planShop(shop: Shop, options: EngineOptions): Promise<Plan> {
  return new Search(problemOf(shop, options.at), options).run();
}

class Search {
  private readonly board: Board;
  /** Writes plans apart from the search, which must not depend on when somebody asks how far it is. */
  private readonly desk: { readonly board: Board; readonly pricer: Pricer };
  private readonly began: number;
  private bound: PlanBound | null = null;
  private readonly improver: Improver;
  /** Where nothing but machines is scarce, the search that is made for that. */
  private readonly disjunctive: DisjunctiveSearch | null;
  private builtSequence: DisjunctiveSearch['best'] | null = null;
  private steps = 0;
  private readonly meetings = new Meetings();
  private reportedTotal = Number.POSITIVE_INFINITY;
  /** The plan told last. */
  private reported: Plan | null = null;
  private nextReport = 0;
  private nextPlan = 0;

  constructor(
    private readonly problem: Problem,
    private readonly options: EngineOptions,
  ) {
    this.began = options.clock();
    this.board = new Board(problem);
    const nearness =
      options.near === undefined ? null : new Nearness(problem, options.near, options.newWork !== undefined);
    const price = () => new Pricer(problem, options.released, nearness);
    this.desk = { board: new Board(problem), pricer: new Pricer(problem, options.released) };
    const random = new Random(options.seed);
    const isNearFirst = options.newWork === undefined;
    this.improver = new Improver(problem, this.board, price(), random, isNearFirst ? nearness : null);
    if (nearness !== null) {
      if (isNearFirst) this.improver.beginNear(nearness, this.recipeOf(options.near!));
      else this.improver.offer(this.withNewWork(this.recipeOf(options.near!)));
      this.disjunctive = null;
      return;
    }
    this.improver.offer(recipeOfOrder(orderByLatestStart(problem)));
    this.improver.offer(recipeOfOrder(orderByTail(problem)));
    for (const plan of [options.previous, options.released]) {
      if (plan !== undefined) this.improver.offer(this.recipeOf(plan));
    }
    const machineShop = machineShopOf(problem);
    const isComplete = this.board.schedule.placed.every((placed) => placed === 1);
    this.disjunctive =
      machineShop === null || !isComplete
        ? null
        : new DisjunctiveSearch(machineShop, random, ...this.improver.sequence());
  }

  /** The recipe of an earlier plan has what is new at its end. */
  private withNewWork(recipe: Recipe): Recipe {
    if (this.options.newWork !== 'before') return recipe;
    const isNew = (run: number) => recipe.anchor[run] === NONE;
    const { order } = recipe;
    return { ...recipe, order: Int32Array.of(...order.filter(isNew), ...order.filter((run) => !isNew(run))) };
  }

  /** The recipe that makes an earlier plan again. */
  private recipeOf(plan: Plan): Recipe {
    const { problem, board } = this;
    const index = board.earlier.push(readSchedule(problem, plan)) - 1;
    return recipeOfSchedule(problem, board.earlier[index]!, index);
  }

  async run(): Promise<Plan> {
    this.report('construct');
    await breathe();
    if (this.options.allocate !== false && !this.isStopped()) await this.allocate();
    return this.lastPlan(await this.improve());
  }

  private lastPlan(ending: Plan['search']['ending']): Plan {
    const { reported, improver, options } = this;
    // What was told on the way hangs on the clock, so only a stop, which does as well, may come back to it.
    if (ending !== 'stopped') return this.plan(ending, Number.POSITIVE_INFINITY);
    const latest = () => this.plan(ending, SETTLING_MEANWHILE);
    if (reported === null) return latest();
    const bound = reported.conflicts.length === 0 ? this.bound : null;
    const told = () => ({ ...reported, bound, search: this.search(ending) });
    const isBeaten = improver.bestTotal > (options.leastElsewhere?.() ?? Number.POSITIVE_INFINITY);
    if (isBeaten || improver.bestTotal === this.reportedTotal) return told();
    const plan = latest();
    if (options.near !== undefined) return plan;
    // Of two settled in a hurry the later one may be worse.
    return reported.cost.total < plan.cost.total ? told() : plan;
  }

  private search(ending: Plan['search']['ending']): Plan['search'] {
    return { seed: this.options.seed, steps: this.steps, seconds: this.seconds(), ending };
  }

  private isStopped(): boolean {
    return this.options.stopped?.() === true;
  }

  private seconds(): number {
    return (this.options.clock() - this.began) / 1000;
  }

  /**
   * The allocation gives an order to begin from and the bounds. It may overrun a very short time limit a little:
   * a plan without its bound says too little.
   */
  private async allocate(): Promise<void> {
    const { problem, improver } = this;
    const allocation = new Allocation(problem);
    const seconds = () => Math.min(MOST_ALLOCATION, Math.max(LEAST_ALLOCATION, this.options.seconds - this.seconds()));
    const best = await allocation.solve(seconds());
    if (best !== null) improver.offer(recipeOfOrder(best.order));
    // A lock that cannot hold breaks rules the bound is built on.
    if (best !== null && this.board.conflicts.length === 0 && !this.isStopped()) {
      const finish = (earliestFinish(problem) - problem.now) / 60;
      await breathe();
      const tonight = await allocation.bound('tonight', seconds());
      await breathe();
      const lateness = await allocation.bound('lateness', seconds());
      if (tonight !== null) {
        this.bound = { total: Math.max(best.total, this.finishOnly(finish)), tonight, lateness: lateness ?? 0, finish };
      }
    }
    this.report('allocate');
    await breathe();
  }

  /** Where only the finish is priced, its bound is the total's. */
  private finishOnly(finish: number): number {
    const { weights } = this.problem.shop;
    const gains = weights.tonight + weights.laterNights + weights.morning;
    return gains === 0 ? weights.finish * finish : Number.NEGATIVE_INFINITY;
  }

  private async improve(): Promise<Plan['search']['ending']> {
    const { options, improver } = this;
    const steps = options.steps ?? Number.POSITIVE_INFINITY;
    if (this.problem.runCount === 0) return 'limit';
    for (;;) {
      if (meetsBound(improver.bestTotal, this.bound)) return 'proved';
      if (this.steps >= steps || this.seconds() >= options.seconds) return 'limit';
      if (this.isStopped()) return 'stopped';
      await this.meetIfDue();
      const sliceEnd = options.clock() + SLICE;
      const spent = this.seconds() / options.seconds;
      const share = () => (options.steps === undefined ? spent : this.steps / options.steps);
      do this.step(share());
      while (this.steps < steps && options.clock() < sliceEnd && !this.isMeetingDue(share()));
      this.buildBestSequence();
      if (options.clock() >= this.nextReport) this.report('improve');
      await breathe();
    }
  }

  private isMeetingDue(share: number): boolean {
    return this.options.meet !== undefined && this.meetings.isDue(share);
  }

  private async meetIfDue(): Promise<void> {
    const { meet, steps, seconds } = this.options;
    const share = steps === undefined ? this.seconds() / seconds : this.steps / steps;
    if (meet === undefined || !this.meetings.isDue(share)) return;
    this.meetings.hold(share);
    const { bestTotal, best } = this.improver;
    const found = await meet({ total: bestTotal, schedule: cloneSchedule(this.problem, best) });
    if (found !== null) this.goOnFrom(found, share);
  }

  /** Takes up what another search has found. */
  private goOnFrom({ total, schedule }: Finding, share: number): void {
    const { problem, board, improver, disjunctive } = this;
    const recipe = recipeOfSchedule(problem, schedule, board.earlier.push(schedule) - 1);
    if (disjunctive === null) {
      improver.join(recipe, total, share);
    } else {
      improver.offer(recipe);
      disjunctive.join(...improver.sequence());
    }
    board.earlier.pop();
  }

  private step(progress: number): void {
    this.steps++;
    if (this.disjunctive === null) this.improver.step(progress);
    else this.disjunctive.step();
  }

  /** Builds the schedule of the best sequence. In a shop of thousands of runs that is no work for each of many small gains. */
  private buildBestSequence(): void {
    const best = this.disjunctive?.best;
    if (best === undefined || best === this.builtSequence) return;
    this.builtSequence = best;
    this.improver.offer(recipeOfSequence(best.order, best.option));
  }

  private report(phase: EngineProgress['phase']): void {
    if (this.options.report === undefined) return;
    const began = this.options.clock();
    const isBetter =
      phase === 'allocate' || (began >= this.nextPlan && this.improver.bestTotal < this.reportedTotal - LEAST_GAIN);
    if (isBetter) {
      this.reportedTotal = this.improver.bestTotal;
      this.reported = this.plan('limit', SETTLING_MEANWHILE);
    }
    this.options.report({
      phase,
      steps: this.steps,
      seconds: this.seconds(),
      plan: isBetter ? this.reported : null,
      total: this.improver.bestTotal,
      bound: this.bound,
    });
    const now = this.options.clock();
    this.nextReport = now + REPORT_EVERY;
    if (isBetter) this.nextPlan = now + (now - began) / REPORT_SHARE;
  }

  /** Hands that are as they were in the plan to stay near to are left as they are. */
  private isAwayFromNear(schedule: Schedule): ((run: number) => boolean) | undefined {
    const near = this.options.near === undefined ? undefined : this.board.earlier[0];
    if (near === undefined) return undefined;
    const columns = (['placed', 'option', 'loadStart', 'start', 'unloadStart'] as const).map((name) => [
      schedule[name],
      near[name],
    ]);
    return (run) => columns.some(([ours, theirs]) => ours![run] !== theirs![run]);
  }

  /** The best schedule as a plan, its hands settled for that many milliseconds at most. */
  private plan(ending: Plan['search']['ending'], settling: number): Plan {
    const { problem, improver, options } = this;
    const { board, pricer } = this.desk;
    board.restore(improver.best, improver.bestConflicts);
    const acts = careActs(problem, board.slots, board.schedule);
    if (board.conflicts.length === 0) {
      const settler = new Settler(problem, board.slots, board.schedule, pricer);
      const until = options.clock() + settling;
      const isOver = () => settling < Number.POSITIVE_INFINITY && options.clock() >= until;
      settler.run(isOver, this.isAwayFromNear(board.schedule));
    }
    const bound = board.conflicts.length === 0 ? this.bound : null;
    return writePlan(problem, board.schedule, acts, board.conflicts, pricer, bound, this.search(ending));
  }
}

/** Lets the event loop hear a stop. */
function breathe(): Promise<void> {
  return new Promise((resolve) => {
    setTimeout(resolve, 0);
  });
}
