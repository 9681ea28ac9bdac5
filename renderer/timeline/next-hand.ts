import type { Minute } from '../../core/time';
import { type PlanIndex, personName } from './plan-index';
import { allAttended, handWords } from './rows/people-rows';
import type { Attended } from './rows/run-item';
import { whenText } from './words';

/** An attendance with its place among all of the plan, in order of start. */
export interface NextHand extends Attended {
  readonly at: number;
}

/** The attendance after `last`, or the first that begins now or later; null if there is none. */
export function nextHand(index: PlanIndex, last: number | null, nowMin: Minute): NextHand | null {
  const all = allAttended(index);
  const at = last === null ? all.findIndex(({ mark }) => mark.start >= nowMin) : last + 1;
  const found = all[at];
  return found === undefined ? null : { ...found, at };
}

/** `Wed 19:00, Ben: Unload P-02, J-104 on M1.` */
export function handText(index: PlanIndex, { mark, person }: Attended): string {
  return `${whenText(index, mark.start)}, ${personName(index, person)}: ${handWords(index, mark)[0]}.`;
}
