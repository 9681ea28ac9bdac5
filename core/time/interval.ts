import type { Minute } from './clock';

/** Half open: `start` is inside, `end` is not, so one may begin the minute another ends. */
export interface Interval {
  readonly start: Minute;
  readonly end: Minute;
}

/** Sorted, with touching and overlapping intervals joined and empty ones gone. */
export function union(intervals: readonly Interval[]): Interval[] {
  const sorted = intervals.filter((i) => i.end > i.start).sort((a, b) => a.start - b.start || a.end - b.end);
  const joined: { start: Minute; end: Minute }[] = [];
  for (const next of sorted) {
    const last = joined.at(-1);
    if (last !== undefined && next.start <= last.end) last.end = Math.max(last.end, next.end);
    else joined.push({ ...next });
  }
  return joined;
}

/** What of `from` lies inside none of `cuts`; sorted and joined. */
export function subtract(from: readonly Interval[], cuts: readonly Interval[]): Interval[] {
  const holes = union(cuts);
  const left: Interval[] = [];
  let first = 0;
  for (const whole of union(from)) {
    let start = whole.start;
    while (first < holes.length && holes[first]!.end <= start) first++;
    for (let i = first; i < holes.length; i++) {
      const hole = holes[i]!;
      if (hole.start >= whole.end) break;
      if (hole.start > start) left.push({ start, end: hole.start });
      start = hole.end;
    }
    if (start < whole.end) left.push({ start, end: whole.end });
  }
  return left;
}

/** What lies inside both; sorted and joined. */
export function intersect(a: readonly Interval[], b: readonly Interval[]): Interval[] {
  return subtract(a, subtract(a, b));
}

/** Minutes covered, counting nothing twice. */
export function coverage(intervals: readonly Interval[]): number {
  return union(intervals).reduce((sum, i) => sum + i.end - i.start, 0);
}
