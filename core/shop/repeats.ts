import type { Check } from './schema';

/** What checks and the repeats they bring make of a run. */
export interface Repeats {
  /** Chance of each whole number of minutes cut again, from 0; they add up to 1. */
  readonly minutes: Float64Array;
  /** Chance that some feature is still out of limits after its last repeat, and the pallet is set aside. */
  readonly setAside: number;
}

/**
 * Each check finds its feature out of limits with its chance, every time anew; the program then goes back, at most
 * `most` times. So a check brings `j` repeats with chance `c^j (1 - c)`, and `most` with `c^most`: the geometric
 * distribution with a cap.
 */
export function repeatsOf(checks: readonly Check[]): Repeats {
  let minutes: Float64Array = new Float64Array([1]);
  let kept = 1;
  for (const { chance, repeat, most } of checks) {
    kept *= 1 - chance ** (most + 1);
    minutes = withCheck(minutes, chance, repeat, most);
  }
  return { minutes, setAside: 1 - kept };
}

/** Too unlikely to plan for: far beyond any share of repeats anybody plans with. */
const NEGLIGIBLE = 1e-9;

function withCheck(before: Float64Array, chance: number, repeat: number, most: number): Float64Array {
  if (chance === 0 || repeat === 0) return before;
  const last = Math.min(most, Math.ceil(Math.log(NEGLIGIBLE) / Math.log(chance)));
  const after = new Float64Array(before.length + last * repeat);
  for (let j = 0; j <= last; j++) {
    const weight = j === last ? chance ** j : chance ** j * (1 - chance);
    for (let m = 0; m < before.length; m++) after[m + j * repeat]! += weight * before[m]!;
  }
  return after;
}

/** The most minutes that repeats can add: every check out of limits each time it may be. */
export function mostRepeatMinutes(checks: readonly Check[]): number {
  return checks.reduce((sum, { chance, repeat, most }) => sum + (chance > 0 ? repeat * most : 0), 0);
}

/** The fewest minutes of repeats that hold for at least this share of runs. */
export function repeatMinutes(checks: readonly Check[], share: number): number {
  if (checks.length === 0) return 0;
  const { minutes } = repeatsOf(checks);
  let within = 0;
  for (let m = 0; m < minutes.length; m++) {
    within += minutes[m]!;
    if (within >= share - NEGLIGIBLE) return m;
  }
  return minutes.length - 1;
}
