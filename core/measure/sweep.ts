import type { Interval, Minute } from '../time';

/** Index of the first of the intervals (sorted, apart) that ends after `minute`. */
function firstEndingAfter(sorted: readonly Interval[], minute: Minute): number {
  let low = 0;
  let high = sorted.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (sorted[middle]!.end > minute) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Those of the intervals (sorted, apart) that lie partly in `within`, whole. */
export function touching<T extends Interval>(sorted: readonly T[], within: Interval): T[] {
  const found: T[] = [];
  for (let i = firstEndingAfter(sorted, within.start); i < sorted.length; i++) {
    const interval = sorted[i]!;
    if (interval.start >= within.end) break;
    found.push(interval);
  }
  return found;
}

/** What of the intervals (sorted, apart) lies in `within`: a binary search, so cheap for a short `within`. */
export function clip(sorted: readonly Interval[], within: Interval): Interval[] {
  return touching(sorted, within).map(({ start, end }) => ({
    start: Math.max(start, within.start),
    end: Math.min(end, within.end),
  }));
}

/** Minutes of the intervals (sorted, apart) that lie in `within`. */
export function minutesIn(sorted: readonly Interval[], within: Interval): number {
  return clip(sorted, within).reduce((sum, i) => sum + i.end - i.start, 0);
}

/** The one of the intervals (sorted, apart) that holds the minute, or null. */
export function intervalAt(sorted: readonly Interval[], minute: Minute): Interval | null {
  const found = sorted[firstEndingAfter(sorted, minute)];
  return found !== undefined && found.start <= minute ? found : null;
}

/** The first minute from `minute` on that lies in one of the intervals (sorted, apart), or infinity. */
export function firstIn(sorted: readonly Interval[], minute: Minute): Minute {
  const found = sorted[firstEndingAfter(sorted, minute)];
  return found === undefined ? Number.POSITIVE_INFINITY : Math.max(found.start, minute);
}

/** The earliest start, `from` or later, of `minutes` in a row inside one of the windows (sorted by start), or infinity. */
export function firstFit(windows: readonly Interval[], from: Minute, minutes: number): Minute {
  for (const window of windows) {
    const start = Math.max(window.start, from);
    if (start + minutes <= window.end) return start;
  }
  return Number.POSITIVE_INFINITY;
}

/** When at least `limit` of the intervals are under way at once; sorted, joined. */
export function fullTimes(intervals: readonly Interval[], limit: number): Interval[] {
  const events = intervals
    .filter((i) => i.end > i.start)
    .flatMap(({ start, end }) => [
      { at: start, change: 1 },
      { at: end, change: -1 },
    ])
    // One may begin the minute another ends, and they are full throughout if it does so in the last free place.
    .sort((a, b) => a.at - b.at || a.change - b.change);
  const full: Interval[] = [];
  let count = 0;
  let since: Minute | null = null;
  for (let i = 0; i < events.length; i++) {
    const { at, change } = events[i]!;
    count += change;
    if (events[i + 1]?.at === at) continue;
    if (count >= limit && since === null) since = at;
    if (count < limit && since !== null) {
      full.push({ start: since, end: at });
      since = null;
    }
  }
  return full;
}
