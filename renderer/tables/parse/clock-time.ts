import { clockTimeFrom } from '../../../core/time';
import { type Parse, puzzled, understood } from './parsed';

/** A time of day as typed, `HH:MM`, 00:00 to 24:00: `6`, `6:30`, `0630`, `22.15`. */
export const parseClockTime: Parse<string> = (text) => {
  const typed = text.trim();
  const time = clockTimeFrom(typed);
  if (time !== null) return understood(time);
  return puzzled(`"${typed}" is not a time of day. Type it as 06:00 or 22:30, from 00:00 to 24:00.`);
};
