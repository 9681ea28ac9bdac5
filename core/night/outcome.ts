import type { Interval, Minute } from '../time';

/** Share of nights that are as bad or worse than a bad night. */
export const BAD_NIGHT = 0.1;

/** Minutes between two points of {@link NightOutcome.cutting}. */
export const CUTTING_EVERY = 15;

export interface NightOptions {
  readonly nights: number;
  readonly seed: number;
  /** Another unattended stretch to look at than tonight's. */
  readonly stretch?: Interval;
}

/**
 * What simulated nights make of a plan's tonight: the unattended stretch up to the first morning attendance. Hours are
 * machine hours; hours *to expect* are those of runs that come to something, so neither a run that stopped its machine
 * nor one whose pallet was lost counts.
 */
export interface NightOutcome {
  readonly nights: number;
  readonly seed: number;
  /** Null where somebody is always there: then there is nothing to simulate, and everything else is 0 or empty. */
  readonly stretch: Interval | null;
  readonly loaded: number;
  readonly expected: number;
  /** Half the width of the 95 % confidence interval of `expected`. */
  readonly halfWidth: number;
  /** Hours that all but one night of ten exceed. */
  readonly badNight: number;
  /** Share of the machines that have something to cut tonight still cutting, every quarter of an hour from the start. */
  readonly cutting: readonly number[];
  readonly machines: readonly MachineNight[];
  readonly runs: readonly RunNight[];
  /** First stops of machines, the dearest first. */
  readonly stops: readonly StopCause[];
  /** The run least likely to come to what is planned, or null if none is cut. */
  readonly weakest: string | null;
  /** Parts made wrong with nobody noticing, by job, the most first; jobs with none are left out. */
  readonly wrong: readonly WrongParts[];
}

export interface MachineNight {
  readonly machine: string;
  readonly loaded: number;
  readonly expected: number;
  readonly badNight: number;
  /** Chance that it cuts in the last minute. */
  readonly stillCutting: number;
  /** When it has cut all it has, as planned and in the middle one of all nights; null: still cutting at the end. */
  readonly quietPlanned: Minute | null;
  readonly quietMedian: Minute | null;
}

export interface RunNight {
  readonly run: string;
  readonly machine: string;
  /** Chance that by morning it is cut and good, or is being cut and going well. */
  readonly done: number;
  /** Minutes of cutting, repeats in it: what one run of ten stays under, the middle one, what nine of ten stay under. */
  readonly length: { readonly p10: number; readonly p50: number; readonly p90: number };
  /** Chance that it is the one that stops its machine. */
  readonly stops: number;
  /** Hours lost on average because it stops its machine or loses its pallet. */
  readonly lost: number;
}

/**
 * `block`: by its own odds. `tool`: no sister tool was left. `handling`: the pallet change before it. `shared`: a cause
 * that takes several machines at once.
 */
export type StopKind = 'block' | 'tool' | 'handling' | 'shared';

export interface StopCause {
  readonly kind: StopKind;
  readonly machine: string | null;
  readonly run: string | null;
  /** The tool kind, or the name of the shared cause. */
  readonly name: string | null;
  /** Chance in one night. */
  readonly chance: number;
  /** Hours lost on average over all nights. */
  readonly lost: number;
}

export interface WrongParts {
  readonly job: string;
  readonly mean: number;
  /** Nine nights of ten have no more. */
  readonly p90: number;
}
