/** The middle of several, lower of two; throws of none. */
export function middle(values: readonly number[]): number {
  return shareOf(values, 0.5);
}

/** The value that this share of all values does not exceed (nearest rank); throws of none. */
export function shareOf(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  const found = sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)];
  if (found === undefined) throw new Error('There is no middle of nothing.');
  return found;
}

/** How evenly a screen was drawn, milliseconds between frames. */
export interface Frames {
  readonly count: number;
  readonly middle: number;
  /** 95 of 100 frames took no longer. */
  readonly most: number;
  /** Frames that came later than a display of 60 Hz would show the next one. */
  readonly late: number;
  /** Frames that a person sees stall. */
  readonly stalled: number;
  readonly longest: number;
}

/** A frame of 60 Hz, with the tenth of a millisecond to which a browser rounds. */
const FRAME_MS = 16.8;

/** A task beyond this is felt: https://www.w3.org/TR/longtasks-1/ */
export const LONG_MS = 50;

/** `times`: when frames were begun, milliseconds, in order; two at least. */
export function framesOf(times: readonly number[]): Frames {
  const gaps = times.slice(1).map((time, at) => time - (times[at] ?? time));
  return {
    count: gaps.length,
    middle: middle(gaps),
    most: shareOf(gaps, 0.95),
    late: gaps.filter((gap) => gap > FRAME_MS).length,
    stalled: gaps.filter((gap) => gap > LONG_MS).length,
    longest: Math.max(...gaps),
  };
}
