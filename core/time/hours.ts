import { addDays, type Clock, localAt, minuteOf, WEEKDAYS, type Weekday, weekdayOf } from './clock';
import { type Interval, intersect, union } from './interval';

/** `HH:MM`, 00:00 to 24:00. An end at or before its start is on the next day, so 22:00 to 06:00 is a night shift. */
export interface ClockSpan {
  readonly from: string;
  readonly to: string;
}

/** The same span on each of some weekdays; the weekday is the one on which it starts. */
export interface WeeklySpan extends ClockSpan {
  readonly days: readonly Weekday[];
}

/** On this date these spans hold instead of the weekly ones; none means closed. */
export interface DayException {
  readonly date: string;
  readonly hours: readonly ClockSpan[];
}

/** Minutes after midnight of `HH:MM`. */
export function clockMinutes(time: string): number {
  return Number(time.slice(0, 2)) * 60 + Number(time.slice(3, 5));
}

function crossesMidnight(span: ClockSpan): boolean {
  return clockMinutes(span.to) <= clockMinutes(span.from);
}

function spanOn(clock: Clock, date: string, span: ClockSpan): Interval {
  const endDate = crossesMidnight(span) ? addDays(date, 1) : date;
  return { start: minuteOf(clock, `${date}T${span.from}`), end: minuteOf(clock, `${endDate}T${span.to}`) };
}

/**
 * Every occurrence of the spans that touches `within`, uncut, in order of start: elapsed minutes, so a 22:00 to 06:00
 * shift is 7 or 9 hours long when the clocks change in it.
 */
export function occurrences(
  clock: Clock,
  within: Interval,
  weekly: readonly WeeklySpan[],
  exceptions: readonly DayException[] = [],
): Interval[] {
  const found: Interval[] = [];
  const lastDate = localAt(clock, within.end).slice(0, 10);
  // A span that started the evening before may still be running when `within` begins.
  for (let date = addDays(localAt(clock, within.start).slice(0, 10), -1); date <= lastDate; date = addDays(date, 1)) {
    const weekday = weekdayOf(date);
    const spans = exceptions.find((e) => e.date === date)?.hours ?? weekly.filter((w) => w.days.includes(weekday));
    for (const span of spans) {
      const interval = spanOn(clock, date, span);
      // A span inside the hour that the clocks skip is empty.
      const empty = interval.end <= interval.start;
      if (!empty && interval.end > within.start && interval.start < within.end) found.push(interval);
    }
  }
  return found.sort((a, b) => a.start - b.start);
}

/** The time covered by the spans inside `within`: sorted, joined, cut to it. */
export function expandHours(
  clock: Clock,
  within: Interval,
  weekly: readonly WeeklySpan[],
  exceptions: readonly DayException[] = [],
): Interval[] {
  return intersect(union(occurrences(clock, within, weekly, exceptions)), [within]);
}

/** The first two weekly spans that claim the same minute of the week, as their indices, or null. */
export function overlappingSpans(weekly: readonly WeeklySpan[]): [number, number] | null {
  const week = 7 * 1440;
  const pieces = weekly.flatMap((span, index) =>
    span.days.flatMap((day) => {
      const start = WEEKDAYS.indexOf(day) * 1440 + clockMinutes(span.from);
      const end = WEEKDAYS.indexOf(day) * 1440 + clockMinutes(span.to) + (crossesMidnight(span) ? 1440 : 0);
      const wrapped = end > week ? [{ index, start: 0, end: end - week }] : [];
      return [{ index, start, end: Math.min(end, week) }, ...wrapped];
    }),
  );
  pieces.sort((a, b) => a.start - b.start);
  for (let i = 1; i < pieces.length; i++) {
    const [before, after] = [pieces[i - 1], pieces[i]];
    if (before !== undefined && after !== undefined && after.start < before.end) return [before.index, after.index];
  }
  return null;
}
