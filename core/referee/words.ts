import type { Person } from '../shop';
import { type Clock, clockText, dayText, type Minute } from '../time';

/** UTC instants between which the calendar can be relied on to read and write dates: 1970 to 9000. */
export const EARLIEST = 0;
export const LATEST = Date.UTC(9000, 0, 1);

/** `Wed 25 Nov 22:05`, or the bare minute where a plan claims a time no calendar has. */
export function at(clock: Clock, minute: Minute): string {
  const instant = clock.origin + minute * 60_000;
  if (instant < EARLIEST || instant > LATEST) return `minute ${minute}`;
  return `${dayText(clock, minute)} ${clockText(clock, minute)}`;
}

export function nameOf(person: Person): string {
  return person.name === '' ? person.id : person.name;
}

/** `A, B and C`. */
export function list(names: readonly string[]): string {
  if (names.length < 2) return names.join('');
  return `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}
