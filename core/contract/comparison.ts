/** What differs between two plans: worked out from both, never stored. All moments are local time, `YYYY-MM-DDTHH:MM`. */
export interface PlanComparison {
  /** Runs on another machine or more than 30 minutes away, in order of their new start. */
  readonly moved: readonly MovedRun[];
  /** Runs only in the plan after, in its order of start. */
  readonly appeared: readonly string[];
  /** Runs only in the plan before, or left out of the plan after; not those done since. In their old order of start. */
  readonly gone: readonly string[];
  /** Jobs that only one of the two shops has. */
  readonly jobs: { readonly added: readonly string[]; readonly removed: readonly string[] };
  /** Jobs whose lateness changes by a minute or more, and those added; what costs most first. */
  readonly late: readonly LateChange[];
  /** The night each plan is about, or null if somebody is always there. */
  readonly nights: { readonly before: LocalSpan | null; readonly after: LocalSpan | null };
  /** Machines whose tonight changes, what loses most first. */
  readonly dry: readonly DryChange[];
  readonly figures: readonly FigureChange[];
  readonly displaced: {
    /** Runs that cut tonight before and no longer do, where both plans are about the same night. */
    readonly tonight: readonly string[];
    /** Jobs that were to finish within 7 days and finish more than 30 minutes later, or not at all. */
    readonly week: readonly string[];
  };
}

export interface LocalSpan {
  readonly start: string;
  readonly end: string;
}

export interface MovedRun {
  readonly run: string;
  readonly job: string;
  readonly from: RunPlace;
  readonly to: RunPlace;
}

export interface RunPlace {
  readonly machine: string;
  readonly pallet: string | null;
  readonly start: string;
}

/** Minutes late: 0 is in time, null does not fit before the end of the plan or is not in that shop. */
export interface LateChange {
  readonly job: string;
  readonly before: number | null;
  readonly after: number | null;
}

/** From when a machine stands for the rest of the night; null: it cuts until the first person comes. */
export interface DryChange {
  readonly machine: string;
  readonly before: string | null;
  readonly after: string | null;
  /** Minutes more (or, negative, fewer) that it cuts tonight. */
  readonly minutes: number;
}

/**
 * Hours for `tonight` (expected), `loaded`, `lateness` (weighted), `extraHours` and `finish` (both counted from the moment
 * of the plan before); numbers of jobs, rounds and machines for `lateJobs`, `rounds` and `morning`.
 */
export type FigureKey =
  | 'tonight'
  | 'loaded'
  | 'lateness'
  | 'lateJobs'
  | 'rounds'
  | 'extraHours'
  | 'morning'
  | 'finish'
  | 'total';

export interface FigureChange {
  readonly key: FigureKey;
  readonly before: number;
  readonly after: number;
}
