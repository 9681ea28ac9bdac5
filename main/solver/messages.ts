import type { EngineProgress, Finding } from '../../core/engine';
import type { Plan, Shop } from '../../core/shop';

/** What a planning run is asked to do. */
export interface PlanningJob {
  readonly shop: Shop;
  /** Local time of the plan's moment. */
  readonly at: string;
  readonly seconds: number;
  /** Changes tried at most by each worker; with it, the same seed and as many workers the plan is the same. */
  readonly steps?: number;
  readonly seed: number;
  /** The plan to begin from. */
  readonly previous: Plan | null;
  /** The plan people already work by: distance from it costs. */
  readonly released?: Plan;
  /** The plan to stay near to where locks have been changed by hand; one thread does it, from this plan alone. */
  readonly near?: Plan;
  /** False: no bounds are looked for, and the plan has none. */
  readonly allocate?: boolean;
}

export type ToSolver =
  /** `meets`: others search side by side with this one. `allocates`: this one finds the bounds for all. */
  | { readonly type: 'start'; readonly job: PlanningJob; readonly meets: boolean; readonly allocates: boolean }
  /** Answers a `meeting`: a better one of another worker, or null. */
  | { readonly type: 'met'; readonly best: Finding | null }
  /** `least`: the least total that any worker has told of. */
  | { readonly type: 'stop'; readonly least: number };

export type FromSolver =
  | { readonly type: 'progress'; readonly progress: EngineProgress }
  /** Answers a `stop`; `done` comes as soon as the plan is written. */
  | { readonly type: 'stopping' }
  | { readonly type: 'meeting'; readonly own: Finding }
  | { readonly type: 'done'; readonly plan: Plan }
  | { readonly type: 'failed'; readonly say: string };
