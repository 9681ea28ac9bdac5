import type { PlanCost } from '../shop';
import type { Minute } from '../time';
import type { PlanComparison } from './comparison';

/** What hands change on the desk: locks, withdrawn pallets, a rush job, the way back, earlier plans, copies of the shop. */

/** A lock by hand; what is null stays open, and a lock of nothing but nulls is taken off. */
export interface Lock {
  readonly run: string;
  readonly machine: string | null;
  readonly pallet: string | null;
  /** Local time at which it begins to cut. */
  readonly start: string | null;
  /** The run after which it is cut, on the same machine. */
  readonly after: string | null;
}

/** Changes made in one go, and undone in one. */
export interface DeskChange {
  readonly locks: readonly Lock[];
  /** Pallets that get no new load. */
  readonly withdraw: readonly string[];
  /** A job to be put in, as a row of the table of jobs; null: none. */
  readonly rush: unknown;
}

/** What would come of a change, everything else kept as near as it can be. Nothing of it is stored. */
export interface Trial {
  /** Names it, to be taken as it is. */
  readonly key: number;
  /** Held runs that can't be where they are held, and what is in the way. */
  readonly conflicts: readonly { readonly run: string; readonly say: string }[];
  /** Runs that find no room any more before the plan ends. */
  readonly left: readonly string[];
  /** Where the held runs, and those of the rush job, come to be; local times. */
  readonly placed: readonly TrialRun[];
  /** Against the plan that counts. */
  readonly comparison: PlanComparison;
  /** The few sentences to read first, worst first. */
  readonly say: readonly string[];
}

export interface TrialRun {
  readonly run: string;
  readonly machine: string;
  readonly start: string;
  readonly end: string;
}

/** What of a plan is asked about: a run, a time in which a machine stands (by its first minute), or a late job. */
export type WhyAbout =
  | { readonly kind: 'run'; readonly run: string }
  | { readonly kind: 'gap'; readonly machine: string; readonly start: Minute }
  | { readonly kind: 'late'; readonly job: string };

/** What the next undo takes back and the next redo makes again, in words; null: nothing. */
export interface WayBack {
  readonly undo: string | null;
  readonly redo: string | null;
}

/** A change that was made; `undone`: it was taken back and can be made again. */
export interface LoggedChange {
  readonly id: number;
  /** Local time. */
  readonly made: string;
  readonly say: string;
  readonly undone: boolean;
}

/** A plan of the history. */
export interface PlanSummary {
  readonly id: number;
  /** Local time in the shop's zone at which it was made. */
  readonly made: string;
  /** Given by the lead; empty: none. */
  readonly name: string;
  readonly cost: PlanCost;
  readonly released: boolean;
  /** The plan that counts. */
  readonly current: boolean;
}

/** A plan of the shop, or of a copy of it; plan null is the one that counts there. */
export interface PlanRef {
  /** The copy's id; null is the shop itself. */
  readonly copy: string | null;
  readonly plan: number | null;
}

export interface ComparedPlans {
  readonly comparison: PlanComparison;
  readonly say: readonly string[];
}

/** A named copy of the shop in which something is changed to see what would come of it. */
export interface CopyView {
  readonly id: string;
  readonly name: string;
  /** Local time. */
  readonly made: string;
  /** How it differs from the shop it was copied from, a sentence each. */
  readonly differences: readonly string[];
  /** The plan that counts in it, and whether it has changed since; null: none yet. */
  readonly plan: (PlanSummary & { readonly outdated: boolean }) | null;
  /** A plan is being made for it. */
  readonly planning: boolean;
}
