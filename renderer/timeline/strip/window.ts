import type { Interval, Minute } from '../../../core/time';

/** What of the window on the plan is moved: all of it, or one of its edges. */
export type WindowPart = 'whole' | 'start' | 'end';

/** Narrower than this the window shows nothing worth showing. */
const SHORTEST_MIN = 10;

/** The window after one of its parts was moved by `byMin` minutes; it stays within the limits. */
export function movedWindow(span: Interval, part: WindowPart, byMin: number, limits: Interval): Interval {
  if (part === 'start') {
    return { start: between(span.start + byMin, limits.start, span.end - SHORTEST_MIN), end: span.end };
  }
  if (part === 'end') {
    return { start: span.start, end: between(span.end + byMin, span.start + SHORTEST_MIN, limits.end) };
  }
  const length = span.end - span.start;
  const start = between(span.start + byMin, limits.start, Math.max(limits.start, limits.end - length));
  return { start, end: start + length };
}

/** The window with a minute in its middle. */
export function windowAround(span: Interval, minute: Minute, limits: Interval): Interval {
  return movedWindow(span, 'whole', minute - (span.start + span.end) / 2, limits);
}

function between(value: number, least: number, most: number): number {
  return Math.min(Math.max(value, least), most);
}
