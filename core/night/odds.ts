/** A run of an unattended stretch: what it brings if it goes well, and its chance not to block the machine. */
export interface UncertainRun {
  readonly hours: number;
  /** Chance that it does not block its machine. */
  readonly works: number;
  /** Chance that its pallet is good if it does not. */
  readonly good: number;
}

/**
 * The order in which a machine is expected to bring most hours when a blocked machine stands until somebody comes:
 * `p r / (1 - p)` largest first, `p` the chance not to block and `r` the good hours. Runs that never block come first.
 * Sequencing unreliable jobs on parallel machines, J. Scheduling 12 (2009).
 */
export function orderByOdds<T extends UncertainRun>(runs: readonly T[]): T[] {
  return runs.toSorted((a, b) => worthOf(b) - worthOf(a));
}

function worthOf({ hours, works, good }: UncertainRun): number {
  return works === 1 ? Number.MAX_VALUE : (works * hours * good) / (1 - works);
}

/** Hours to expect of runs in this order: each counts if it and all before it go well. */
export function expectedInOrder(runs: readonly UncertainRun[]): number {
  let works = 1;
  return runs.reduce((hours, run) => {
    works *= run.works;
    return hours + works * run.good * run.hours;
  }, 0);
}
