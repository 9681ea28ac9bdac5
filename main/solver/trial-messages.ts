import type { PlanReport, Trial, Why, WhyAbout } from '../../core/contract';
import type { Plan, Shop } from '../../core/shop';

/** A change of the shop to be tried: what would come of it with everything else kept as near as it can be. */
export interface TrialJob {
  /** The shop with the change in it. */
  readonly shop: Shop;
  /** Local time of the plan's moment. */
  readonly at: string;
  readonly seconds: number;
  readonly seed: number;
  /** What it is compared with, and kept near to. */
  readonly before: { readonly shop: Shop; readonly plan: Plan; readonly report: PlanReport };
  /** The plan people already work by: distance from it costs. */
  readonly released: Plan | null;
  /** A job comes in between: work gives way to what would be late. */
  readonly hasNewWork: boolean;
  /** Runs whose new places are asked for. */
  readonly held: readonly string[];
}

/** What came of it; the plan has passed the referee. */
export interface Tried {
  readonly plan: Plan;
  readonly trial: Omit<Trial, 'key'>;
}

/** Asks why something in a plan is where it is. */
export interface WhyJob {
  readonly shop: Shop;
  readonly plan: Plan;
  readonly about: WhyAbout;
}

export type ToTrials =
  | { readonly type: 'try'; readonly id: number; readonly job: TrialJob }
  | { readonly type: 'why'; readonly id: number; readonly job: WhyJob };

export type FromTrials =
  | { readonly type: 'tried'; readonly id: number; readonly tried: Tried }
  | { readonly type: 'because'; readonly id: number; readonly why: Why }
  | { readonly type: 'failed'; readonly id: number; readonly say: string };
