import type { Gap, IdleReason } from '../contract';
import type { Clock, Interval, Minute } from '../time';
import { weekText } from './words';

/** Part of an idle interval with one cause. */
export interface Piece extends Interval {
  readonly reason: IdleReason;
  /** Why, as a clause; worked out only for the pieces that are told. */
  readonly because: () => string;
  /** When this cause is over, if it outlasts the piece. */
  readonly until?: Minute;
}

const LEADS: Record<IdleReason, string> = {
  dry: 'Dry',
  hand: 'Waits for a hand',
  off: 'Planned off',
  'nothing-due': 'Nothing due',
};

/**
 * Pieces that touch as gaps, one gap where the reason stays the same: nobody wants a row of two-minute gaps. The
 * longest piece lends its clause.
 */
export function gapsFrom(pieces: readonly Piece[], clock: Clock, horizon: Minute): Gap[] {
  const groups: Piece[][] = [];
  for (const piece of [...pieces].sort((a, b) => a.start - b.start)) {
    const last = groups.at(-1)?.at(-1);
    if (last !== undefined && last.reason === piece.reason && last.end === piece.start) groups.at(-1)!.push(piece);
    else groups.push([piece]);
  }
  return groups.map((group) => gapFrom(group, clock, horizon));
}

function gapFrom(group: readonly Piece[], clock: Clock, horizon: Minute): Gap {
  const [first, last] = [group[0]!, group.at(-1)!];
  const longest = group.reduce((a, b) => (b.end - b.start > a.end - a.start ? b : a));
  const until = last.until ?? last.end;
  const untilText = until >= horizon ? 'to the end of the plan' : `until ${weekText(clock, until, first.start)}`;
  return {
    start: first.start,
    end: last.end,
    reason: first.reason,
    say: `${LEADS[first.reason]} ${untilText}: ${longest.because()}.`,
  };
}
