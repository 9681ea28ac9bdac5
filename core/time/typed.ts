const COLON = /^(\d{1,4}):([0-5]\d)(?::00)?$/;
const BARE = /^\d+$/;
const HOURS = /^(\d{1,4}(?:[.,]\d+)?)\s*h$/i;
const MINUTES = /^(\d+)\s*m(?:in)?$/i;
const HOURS_MINUTES = /^(\d{1,4})\s*h\s*([0-5]?\d)(?:\s*m(?:in)?)?$/i;
const CLOCK = /^(\d{1,2})(?:[:.h]?([0-5]\d))?$/;

/**
 * A length of time as people write it, in whole minutes: `1:45`, `1:45:00`, `105`, `1h45`, `1 h 45 min`, `1.75 h`,
 * `105 min`; null for anything else. A figure alone is minutes, so that one with decimals is none: nobody can tell which.
 */
export function lengthFrom(text: string): number | null {
  const written = text.trim();
  const together = COLON.exec(written) ?? HOURS_MINUTES.exec(written);
  if (together !== null) return Number(together[1]) * 60 + Number(together[2]);
  if (BARE.test(written)) return Number(written);
  const minutes = MINUTES.exec(written);
  if (minutes !== null) return Number(minutes[1]);
  const hours = HOURS.exec(written);
  return hours === null ? null : Math.round(Number((hours[1] as string).replace(',', '.')) * 60);
}

/** A time of day as people write it, `HH:MM` from 00:00 to 24:00: `6`, `6:30`, `0630`, `22.15`; null for anything else. */
export function clockTimeFrom(text: string): string | null {
  const match = CLOCK.exec(text.trim());
  const hour = Number(match?.[1]);
  const minute = Number(match?.[2] ?? 0);
  if (match === null || hour > 24 || (hour === 24 && minute > 0)) return null;
  return `${String(hour).padStart(2, '0')}:${String(minute).padStart(2, '0')}`;
}
