import { addDays, clockOn, dayText, isLocalTime, WEEKDAYS, weekdayOf } from '../../../core/time';
import { parseClockTime } from './clock-time';
import { type Parse, type Parsed, puzzled, understood } from './parsed';

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];
const ISO = /^(\d{4}-\d{2}-\d{2})$/;
const DAY_MONTH = /^(?:[a-z]{2,9},?\s+)?(\d{1,2})\.?\s*([a-z]{3,9})\.?(?:\s+(\d{4}))?$/i;
const DOTTED = /^(\d{1,2})\.(\d{1,2})\.(\d{4})?$/;
const WEEKDAY = /^([a-z]{2,9})$/i;
const HOW = 'Type it as 27 Nov 16:00, 2026-11-27 16:00 or fri 16:00.';

/**
 * Reads a date and time as typed, to `YYYY-MM-DDTHH:MM`. A date without a year is the one nearest to `near`, a weekday
 * the first on or after it. `near` is a local time, usually the moment planned from.
 */
export function parseMoment(near: string): Parse<string> {
  return (text) => {
    const typed = text
      .trim()
      .replace(/\s+/g, ' ')
      .replace(/^([\d-]{10})T/, '$1 ');
    const space = typed.lastIndexOf(' ');
    const time = parseClockTime(typed.slice(space + 1));
    if (space < 0 || !time.ok) {
      const date = dateOf(typed, near);
      if (date !== null) return puzzled(`"${typed}" has no time of day. ${HOW}`);
      return puzzled(`"${typed}" is not a date and time. ${HOW}`);
    }
    const date = dateOf(typed.slice(0, space), near);
    if (date === null) return puzzled(`"${typed}" is not a date and time. ${HOW}`);
    return understood(`${date}T${time.value}`);
  };
}

/** Like {@link parseMoment}, where nothing typed means none. */
export function parseOptionalMoment(near: string): Parse<string | null> {
  return (text) => (text.trim() === '' ? understood(null) : parseMoment(near)(text));
}

/** Reads a date as typed, to `YYYY-MM-DD`. */
export function parseDate(near: string): Parse<string> {
  return (text): Parsed<string> => {
    const typed = text.trim().replace(/\s+/g, ' ');
    const date = dateOf(typed, near);
    return date === null
      ? puzzled(`"${typed}" is not a date. Type it as 27 Nov, 2026-11-27 or fri.`)
      : understood(date);
  };
}

function dateOf(typed: string, near: string): string | null {
  const iso = ISO.exec(typed);
  if (iso !== null) return realDate(typed);
  const dotted = DOTTED.exec(typed);
  if (dotted !== null) return yearly(Number(dotted[1]), Number(dotted[2]), dotted[3], near);
  const named = DAY_MONTH.exec(typed);
  if (named !== null) {
    const month = startsWithOne(MONTHS, named[2] as string) + 1;
    return month === 0 ? null : yearly(Number(named[1]), month, named[3], near);
  }
  const weekday = WEEKDAY.exec(typed);
  return weekday === null ? null : comingWeekday(weekday[1] as string, near);
}

function comingWeekday(typed: string, near: string): string | null {
  const index = startsWithOne(
    WEEKDAYS.map((day) => day.slice(0, 2)),
    typed,
  );
  if (index < 0) return null;
  const today = near.slice(0, 10);
  const ahead = (index - WEEKDAYS.indexOf(weekdayOf(today)) + 7) % 7;
  return addDays(today, ahead);
}

function startsWithOne(names: readonly string[], typed: string): number {
  return names.findIndex((name) => typed.toLowerCase().startsWith(name));
}

function yearly(day: number, month: number, typedYear: string | undefined, near: string): string | null {
  const inYear = (year: number): string | null =>
    realDate(`${year}-${String(month).padStart(2, '0')}-${String(day).padStart(2, '0')}`);
  if (typedYear !== undefined) return inYear(Number(typedYear));
  const thisYear = Number(near.slice(0, 4));
  const away = (date: string): number => Math.abs(Date.parse(date) - Date.parse(near.slice(0, 10)));
  return [thisYear, thisYear + 1, thisYear - 1]
    .map(inYear)
    .filter((date) => date !== null)
    .reduce<string | null>((best, date) => (best === null || away(date) < away(best) ? date : best), null);
}

function realDate(date: string): string | null {
  return isLocalTime(`${date}T00:00`) ? date : null;
}

/** `Fri 27 Nov`, with the year where {@link parseDate} near the same moment would take another one. */
export function showDate(date: string, near: string): string {
  const short = dayText(clockOn('UTC', date), 0);
  return dateOf(short, near) === date ? short : `${short} ${date.slice(0, 4)}`;
}

/** `Fri 27 Nov 16:00`; what {@link parseMoment} near the same moment reads back. */
export function showMoment(moment: string, near: string): string {
  return `${showDate(moment.slice(0, 10), near)} ${moment.slice(11)}`;
}
