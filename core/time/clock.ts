import { tzOffset } from '@date-fns/tz';

/**
 * A point on the plan's axis: whole minutes from the clock's origin. Elapsed minutes, not wall minutes, so a night
 * in which the clocks change is simply 60 minutes shorter or longer. Negative before the origin.
 */
export type Minute = number;

/** Fixes minute 0 and the zone its dates are read and written in. */
export interface Clock {
  /** IANA name, for example `Europe/Berlin`. */
  readonly zone: string;
  /** UTC instant of minute 0 in milliseconds. */
  readonly origin: number;
}

const MS_PER_MINUTE = 60_000;
const MS_PER_DAY = 86_400_000;
const LOCAL = /^(\d{4})-(\d{2})-(\d{2})T(\d{2}):(\d{2})$/;

/** True if this JavaScript engine knows the zone's rules. */
export function isZone(zone: string): boolean {
  try {
    new Intl.DateTimeFormat('en', { timeZone: zone });
    return true;
  } catch {
    return false;
  }
}

/** Zones change their offset on quarter hours only, and asking for one is slow, so each is asked for once. */
const MS_PER_QUARTER = 900_000;
const MOST_KEPT = 100_000;
const offsets = new Map<string, Map<number, number>>();

function offsetMs(zone: string, instant: number): number {
  let known = offsets.get(zone);
  if (known === undefined) {
    known = new Map();
    offsets.set(zone, known);
  }
  const quarter = Math.floor(instant / MS_PER_QUARTER);
  let offset = known.get(quarter);
  if (offset === undefined) {
    offset = tzOffset(zone, new Date(quarter * MS_PER_QUARTER)) * MS_PER_MINUTE;
    if (known.size >= MOST_KEPT) known.clear();
    known.set(quarter, offset);
  }
  return offset;
}

/** The local wall time as if it were UTC, or null if the text is no such time. */
function wallMs(local: string): number | null {
  const match = LOCAL.exec(local);
  if (match === null) return null;
  const [year, month, day, hour, minute] = match.slice(1).map(Number) as [number, number, number, number, number];
  // JavaScript takes years below 100 for those of the 20th century.
  if (year < 100 || hour > 24 || minute > 59 || (hour === 24 && minute > 0)) return null;
  const midnight = new Date(Date.UTC(year, month - 1, day));
  if (midnight.getUTCMonth() !== month - 1 || midnight.getUTCDate() !== day) return null;
  return midnight.getTime() + (hour * 60 + minute) * MS_PER_MINUTE;
}

/** True for `YYYY-MM-DDTHH:MM` with a real date in the years 1970 to 2999 and 00:00 to 24:00. */
export function isLocalTime(text: string): boolean {
  // Dates further away are slips of the pen, and adding days to them would leave the four-digit years.
  return wallMs(text) !== null && text >= '1970' && text < '3000';
}

/**
 * UTC instant in milliseconds of a wall time `YYYY-MM-DDTHH:MM` in the zone. A time that comes twice (clocks going
 * back) is its first coming; a time that never comes (clocks going forward) is read with the offset before the gap:
 * RFC 5545 section 3.3.5. Throws a RangeError on text that is no local time.
 */
export function instantOf(zone: string, local: string): number {
  const wall = wallMs(local);
  if (wall === null) throw new RangeError(`"${local}" is not a local time such as 2026-11-27T16:00`);
  const before = offsetMs(zone, wall - MS_PER_DAY);
  if (offsetMs(zone, wall - before) === before) return wall - before;
  const after = offsetMs(zone, wall + MS_PER_DAY);
  return offsetMs(zone, wall - after) === after ? wall - after : wall - before;
}

/** The wall time `YYYY-MM-DDTHH:MM` the zone shows at a UTC instant in milliseconds. */
export function localTime(zone: string, instant: number): string {
  return new Date(instant + offsetMs(zone, instant)).toISOString().slice(0, 16);
}

/** A clock whose minute 0 is the local midnight that begins the day of `local`. */
export function clockOn(zone: string, local: string): Clock {
  return { zone, origin: instantOf(zone, `${local.slice(0, 10)}T00:00`) };
}

/** The minute of a local wall time `YYYY-MM-DDTHH:MM`; see {@link instantOf} for times that come twice or never. */
export function minuteOf(clock: Clock, local: string): Minute {
  return Math.floor((instantOf(clock.zone, local) - clock.origin) / MS_PER_MINUTE);
}

/** The local wall time `YYYY-MM-DDTHH:MM` at a minute. */
export function localAt(clock: Clock, minute: Minute): string {
  return localTime(clock.zone, clock.origin + minute * MS_PER_MINUTE);
}

/** `YYYY-MM-DD` moved by whole calendar days. */
export function addDays(date: string, days: number): string {
  return new Date(Date.parse(`${date}T00:00Z`) + days * MS_PER_DAY).toISOString().slice(0, 10);
}

export const WEEKDAYS = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] as const;
export type Weekday = (typeof WEEKDAYS)[number];

/** The weekday of a date `YYYY-MM-DD`. */
export function weekdayOf(date: string): Weekday {
  const sundayFirst = new Date(`${date}T00:00Z`).getUTCDay();
  return WEEKDAYS[(sundayFirst + 6) % 7] as Weekday;
}
