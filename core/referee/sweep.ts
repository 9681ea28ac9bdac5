import type { Interval, Minute } from '../time';

export function isEmpty(span: Interval): boolean {
  return span.end <= span.start;
}

/**
 * Each span with the one before it that ends last, in order of start; empty spans are passed over. Whoever overlaps
 * anything is in a pair that overlaps, so one pass finds every offender without comparing all with all.
 */
export function successions<T extends Interval>(spans: readonly T[]): [T, T][] {
  const sorted = spans.filter((span) => !isEmpty(span)).sort((a, b) => a.start - b.start || a.end - b.end);
  const pairs: [T, T][] = [];
  let last: T | undefined;
  for (const next of sorted) {
    if (last !== undefined) pairs.push([last, next]);
    if (last === undefined || next.end > last.end) last = next;
  }
  return pairs;
}

export function overlapping<T extends Interval>(spans: readonly T[]): [T, T][] {
  return successions(spans).filter(([before, after]) => after.start < before.end);
}

interface Crowd<T> {
  readonly at: Minute;
  readonly spans: readonly T[];
}

/**
 * Every moment at which more than `most` spans begin to run at once, with all that run then. While too many of the
 * spans that may not move run, the first movable one to join them makes a moment of its own.
 */
export function crowds<T extends Interval>(
  spans: readonly T[],
  most: number,
  isMovable: (span: T) => boolean,
): Crowd<T>[] {
  const byStart = spans.filter((span) => !isEmpty(span)).sort((a, b) => a.start - b.start);
  const byEnd = [...byStart].sort((a, b) => a.end - b.end);
  const found: Crowd<T>[] = [];
  let ended = 0;
  let inside = 0;
  let movable = 0;
  for (const next of byStart) {
    for (let over = byEnd[ended]; over !== undefined && over.end <= next.start; over = byEnd[++ended]) {
      inside--;
      if (isMovable(over)) movable--;
    }
    inside++;
    if (isMovable(next)) movable++;
    const joinsForced = isMovable(next) && movable === 1;
    if (inside === most + 1 || (inside > most && joinsForced)) {
      // Those that begin in the same minute but come later in the list are not counted yet, so they are not named.
      const running = byStart.slice(0, byStart.indexOf(next) + 1).filter((span) => span.end > next.start);
      found.push({ at: next.start, spans: running });
    }
  }
  return found;
}

/** Whether one of the sorted, disjoint intervals holds the whole span. */
export function covers(intervals: readonly Interval[], span: Interval): boolean {
  const candidate = intervals[startingBy(intervals, span.start) - 1];
  return candidate !== undefined && candidate.end >= span.end;
}

/** How many of the sorted intervals start at or before the minute. */
function startingBy(intervals: readonly Interval[], minute: Minute): number {
  let low = 0;
  let high = intervals.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((intervals[middle] as Interval).start <= minute) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Minutes of the span inside the sorted, disjoint intervals. */
export function minutesInside(intervals: readonly Interval[], span: Interval): number {
  let sum = 0;
  for (let i = startingBy(intervals, span.start) - 1; i < intervals.length; i++) {
    const one = intervals[i];
    if (one === undefined) continue;
    if (one.start >= span.end) break;
    sum += Math.max(0, Math.min(one.end, span.end) - Math.max(one.start, span.start));
  }
  return sum;
}

export function clip(span: Interval, within: Interval): Interval {
  return { start: Math.max(span.start, within.start), end: Math.min(span.end, within.end) };
}

export function groupBy<T>(items: readonly T[], keyOf: (item: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const item of items) {
    const key = keyOf(item);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [item]);
    else group.push(item);
  }
  return groups;
}
