import { type Parse, puzzled, understood } from './parsed';

const TIME = /^(\d{1,2})(?:[:.h]?([0-5]\d))?$/;

/** A time of day as typed, `HH:MM`, 00:00 to 24:00: `6`, `6:30`, `0630`, `22.15`. */
export const parseClockTime: Parse<string> = (text) => {
  const typed = text.trim();
  const match = TIME.exec(typed);
  const hour = Number(match?.[1]);
  const minute = Number(match?.[2] ?? 0);
  if (match === null || hour > 24 || (hour === 24 && minute > 0)) {
    return puzzled(`"${typed}" is not a time of day. Type it as 06:00 or 22:30, from 00:00 to 24:00.`);
  }
  return understood(`${String(hour).padStart(2, '0')}:${String(minute).padStart(2, '0')}`);
};
