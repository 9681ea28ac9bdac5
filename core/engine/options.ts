import type { Plan, PlanBound } from '../shop';
import type { Finding } from './meeting';

export interface EngineOptions {
  /** The plan's moment, local time in the shop's zone: nothing is planned before it. */
  readonly at: string;
  readonly seconds: number;
  /** Changes tried at most; with the same seed and this limit (and time enough) the plan is the same. */
  readonly steps?: number;
  readonly seed: number;
  /** The plan people already work by: distance from it costs. */
  readonly released?: Plan;
  /** Where to begin the search, beside the engine's own beginnings. */
  readonly previous?: Plan;
  /**
   * The plan to stay near to, with changes made by hand to its locks: every run that is not held stays on its machine
   * and at its time there as far as the locks let it. Distance goes before the shop's own cost in the search, which
   * begins from this plan alone; what is written as the plan's cost is the shop's own. With no steps it is mended and
   * no more.
   */
  readonly near?: Plan;
  /**
   * For work that `near` does not have, as a job that comes in between: the search begins with it put in behind all other
   * work or before it. Given, distance counts beside the shop's own cost, not before it, so that work gives way to what
   * would be late.
   */
  readonly newWork?: 'behind' | 'before';
  /**
   * Told after each phase and then at least ten times a second; `plan` only where it is better than the last one told,
   * and seldom where it takes long to write.
   */
  readonly report?: (progress: EngineProgress) => void;
  /** False leaves the bounds, and the order that comes with them, out: of searches side by side one needs them. */
  readonly allocate?: boolean;
  /**
   * Where several engines search side by side: gives this one's best and gets a better one of another, or null. Awaited
   * at each twentieth of the limit - of the steps if they are given, else of the seconds - but the last.
   */
  readonly meet?: (own: Finding) => Promise<Finding | null>;
  /** Asked at least every 50 ms; true ends the search with the best plan so far. */
  readonly stopped?: () => boolean;
  /**
   * Asked once it is stopped: the least {@link EngineProgress.total} of the searches side by side. One that has found
   * nothing as good gives the plan it told last, for writing another would only keep the one that has waiting.
   */
  readonly leastElsewhere?: () => number;
  /** Milliseconds of a clock that only goes forward. */
  readonly clock: () => number;
}

export interface EngineProgress {
  readonly phase: 'construct' | 'allocate' | 'improve';
  readonly steps: number;
  readonly seconds: number;
  readonly plan: Plan | null;
  /** Cost of the best found so far; a plan of it may be cheaper, its hands settled. */
  readonly total: number;
  readonly bound: PlanBound | null;
}
