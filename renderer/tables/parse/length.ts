import { type Parse, type Parsed, puzzled, understood } from './parsed';

const COLON = /^(\d{1,4}):([0-5]\d)$/;
const BARE = /^\d+$/;
const HOURS = /^(\d{1,4}(?:[.,]\d+)?)\s*h$/i;
const MINUTES = /^(\d+)\s*m(?:in)?$/i;
const HOURS_MINUTES = /^(\d{1,4})\s*h\s*([0-5]?\d)(?:\s*m(?:in)?)?$/i;

/** A length of time as typed, in whole minutes: `1:45`, `105`, `1h45`, `1 h 45`, `1.75 h`, `105 min`. */
export const parseLength: Parse<number> = (text) => {
  const typed = text.trim();
  const minutes = lengthOf(typed);
  if (minutes !== null) return understood(minutes);
  return puzzled(`"${typed}" is not a length of time. Type hours and minutes as 1:45 or 1h45, or minutes as 105.`);
};

function lengthOf(typed: string): number | null {
  const together = COLON.exec(typed) ?? HOURS_MINUTES.exec(typed);
  if (together !== null) return Number(together[1]) * 60 + Number(together[2]);
  if (BARE.test(typed)) return Number(typed);
  const minutes = MINUTES.exec(typed);
  if (minutes !== null) return Number(minutes[1]);
  const hours = HOURS.exec(typed);
  if (hours !== null) return Math.round(Number((hours[1] as string).replace(',', '.')) * 60);
  return null;
}

/** Like {@link parseLength}, for a length that must not be zero. */
export const parseSomeLength: Parse<number> = (text) => atLeastOne(parseLength(text));

function atLeastOne(parsed: Parsed<number>): Parsed<number> {
  return parsed.ok && parsed.value < 1 ? puzzled('Must be at least one minute.') : parsed;
}

/** Whole minutes as `1:45`; what {@link parseLength} reads back. */
export function showLength(minutes: number): string {
  return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')}`;
}
