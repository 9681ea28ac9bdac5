import type { Interval, Minute } from '../../core/time';

/**
 * Things in order of start, with how far any up to each of them reaches: what is on screen is found by halving, so that
 * a frame costs nothing for what is off it.
 */
export interface Track<T extends Interval> {
  readonly all: readonly T[];
  /** The latest end of the things up to and with each. */
  readonly reach: readonly Minute[];
}

export function trackOf<T extends Interval>(things: readonly T[]): Track<T> {
  const all = [...things].sort((a, b) => a.start - b.start);
  let furthest = Number.NEGATIVE_INFINITY;
  const reach = all.map((thing) => {
    furthest = Math.max(furthest, thing.end);
    return furthest;
  });
  return { all, reach };
}

export const EMPTY_TRACK: Track<never> = { all: [], reach: [] };

/** Visits what overlaps `span`, in order of start. */
export function eachWithin<T extends Interval>(
  track: Track<T>,
  span: Interval,
  visit: (thing: T, at: number) => void,
): void {
  for (let at = firstAbove(track.reach, span.start); at < track.all.length; at++) {
    const thing = track.all[at]!;
    if (thing.start >= span.end) return;
    if (thing.end > span.start) visit(thing, at);
  }
}

/** The place of the first of `values`, which never fall, that is greater than `limit`; their number if none is. */
export function firstAbove(values: readonly number[], limit: number): number {
  let [low, high] = [0, values.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (values[middle]! > limit) high = middle;
    else low = middle + 1;
  }
  return low;
}
