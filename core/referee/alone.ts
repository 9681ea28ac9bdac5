import { minutesAlone } from '../shop';
import { type Interval, lengthText } from '../time';
import type { Context } from './context';
import type { Stay } from './stay';
import { clip, groupBy, isEmpty } from './sweep';
import { type Finding, finding } from './verdict';
import { at, list } from './words';

/** Rule 9: nothing cuts with nobody there for longer than it has earned, nor more parts than may be suspect. */
export function checkAlone(ctx: Context, unattended: readonly Interval[]): Finding[] {
  const ahead = unattended.map((stretch) => clip(stretch, ctx.ahead)).filter((stretch) => !isEmpty(stretch));
  return [...checkEarned(ctx, ahead), ...checkSuspects(ctx, ahead)];
}

function checkEarned(ctx: Context, unattended: readonly Interval[]): Finding[] {
  return ctx.stays.filter(isAsked).flatMap((stay) => {
    const most = minutesAlone(ctx.shop, stay.need.operation);
    const { run, machine } = stay.planned;
    const longest = unattended.find((stretch) => minutesOf(clip(stay.planned, stretch)) > most);
    if (longest === undefined) return [];
    const { start, end } = clip(stay.planned, longest);
    const earned = most === 0 ? 'has not earned to run alone' : `has earned ${lengthText(most)} alone`;
    const say = `Run ${run} on ${machine} ${earned} and cuts from ${at(ctx.clock, start)} to ${at(ctx.clock, end)} with nobody there.`;
    return [finding(9, 'alone', [run], say, 'held')];
  });
}

function checkSuspects(ctx: Context, unattended: readonly Interval[]): Finding[] {
  const unchecked = ctx.stays.filter(
    ({ isBench, need }) => !isBench && need.job.suspectLimit !== null && need.operation.checks.length === 0,
  );
  const byPlace = groupBy(unchecked, ({ planned, need }) => JSON.stringify([planned.machine, need.job.id]));
  return [...byPlace.values()].flatMap((stays) =>
    unattended.flatMap((stretch) => {
      const within = stays.filter(({ planned }) => minutesOf(clip(planned, stretch)) > 0);
      const parts = within.reduce((sum, { need }) => sum + need.parts, 0);
      const movable = within.filter(isAsked).map(({ planned }) => planned.run);
      const [first] = within;
      const limit = first?.need.job.suspectLimit ?? null;
      if (first === undefined || limit === null || parts <= limit || movable.length === 0) return [];
      const say = `${parts} parts of ${first.need.job.id} are made on ${first.planned.machine} before anybody looks at them at ${at(ctx.clock, stretch.end)}, by ${list(movable)}; ${limit} are allowed.`;
      return [finding(9, 'suspect', movable, say, 'held')];
    }),
  );
}

/** Benches have somebody at them; what runs or has run already is past asking. */
function isAsked({ isBench, entry }: Stay): boolean {
  return !isBench && entry?.state !== 'running' && entry?.state !== 'finished';
}

function minutesOf({ start, end }: Interval): number {
  return Math.max(0, end - start);
}
