import { lengthFrom } from '../../../core/time';
import { parseAmount } from './number';
import { type Parse, type Parsed, puzzled, understood } from './parsed';

/** A length of time as typed ({@link lengthFrom}), in whole minutes. */
export const parseLength: Parse<number> = (text) => {
  const typed = text.trim();
  const minutes = lengthFrom(typed);
  if (minutes !== null) return understood(minutes);
  return puzzled(`"${typed}" is not a length of time. Type hours and minutes as 1:45 or 1h45, or minutes as 105.`);
};

/** Like {@link parseLength}, for a length that must not be zero. */
export const parseSomeLength: Parse<number> = (text) => atLeastOne(parseLength(text));

function atLeastOne(parsed: Parsed<number>): Parsed<number> {
  return parsed.ok && parsed.value < 1 ? puzzled('Must be at least one minute.') : parsed;
}

/** Minutes to reckon with and not to plan with: a length, or minutes with decimals. */
export const parseReckonedMinutes: Parse<number> = (text) => {
  const parsed = parseLength(text);
  return parsed.ok ? parsed : parseAmount(text);
};

/** Whole minutes as `1:45`; what {@link parseLength} reads back. */
export function showLength(minutes: number): string {
  return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')}`;
}
