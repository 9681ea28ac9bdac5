import { type Clock, clockText, dayText, localAt, type Minute, momentText } from '../time';

const DAY = 1440;

/** A moment as short as it can be read beside `beside`: `14:20` on the same day, `Tue 06:00` in its week, else `Tue 8 Dec 06:00`. */
export function atText(clock: Clock, minute: Minute, beside: Minute): string {
  if (Math.abs(minute - beside) >= DAY) return weekText(clock, minute, beside);
  const local = localAt(clock, minute);
  const sameDay = local.slice(0, 10) === localAt(clock, beside).slice(0, 10);
  return sameDay ? local.slice(11) : weekText(clock, minute, beside);
}

/** A moment with its day: `Tue 06:00` in the week of `beside`, else `Tue 8 Dec 06:00`. */
export function weekText(clock: Clock, minute: Minute, beside: Minute): string {
  return Math.abs(minute - beside) < 6 * DAY
    ? momentText(clock, minute)
    : `${dayText(clock, minute)} ${clockText(clock, minute)}`;
}

/** `Anna`, `Anna and Ben`, `Anna, Ben and Eva`. */
export function listText(items: readonly string[]): string {
  const last = items.at(-1) ?? '';
  return items.length < 2 ? last : `${items.slice(0, -1).join(', ')} and ${last}`;
}

/** A sentence given by somebody else, to be used inside one of ours. */
export function clause(text: string): string {
  return text.replace(/\.$/, '');
}
