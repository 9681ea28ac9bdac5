import type { PlanProgress } from '../../core/contract';
import type { Plan, Shop } from '../../core/shop';

/** What a planning run is asked to do. */
export interface PlanningJob {
  readonly shop: Shop;
  /** Local time of the plan's moment. */
  readonly at: string;
  readonly seconds: number;
  readonly seed: number;
  /** The plan to begin from. */
  readonly previous: Plan | null;
}

export type ToSolver = { readonly type: 'start'; readonly job: PlanningJob } | { readonly type: 'stop' };

export type FromSolver =
  | { readonly type: 'progress'; readonly progress: PlanProgress }
  | { readonly type: 'done'; readonly plan: Plan }
  | { readonly type: 'failed'; readonly say: string };
