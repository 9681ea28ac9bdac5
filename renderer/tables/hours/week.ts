import { type Clock, coverage, expandHours, type Interval, union, type WeeklySpan } from '../../../core/time';

/** Minutes in a week. */
export const WEEK = 7 * 1440;

// Monday 3 January 2000, in a zone without clock changes: a week like any other.
const ANY_WEEK: Clock = { zone: 'UTC', origin: Date.UTC(2000, 0, 3) };

/** The part of an ordinary week covered by any of the spans, in minutes from Monday 00:00. */
export function weekOf(spans: readonly WeeklySpan[]): Interval[] {
  return union(expandHours(ANY_WEEK, { start: 0, end: WEEK }, spans));
}

/** Minutes of an ordinary week covered by any of the spans. */
export function weekMinutes(spans: readonly WeeklySpan[]): number {
  return coverage(weekOf(spans));
}
