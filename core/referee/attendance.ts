import { ATTENDANCE_ROLES, type AttendanceRole, type Person } from '../shop';
import { expandHours, type Interval, type Minute, subtract, WEEKDAYS } from '../time';
import type { Context } from './context';
import type { Stay } from './stay';

/** One attendance with where it takes place. */
export interface Visit extends Interval {
  readonly role: AttendanceRole | 'care';
  readonly person: string;
  /** The run it is for; none where it is for the tools of a machine. */
  readonly runs: readonly string[];
  readonly machine: string;
  /** Needed for it; empty is none. */
  readonly skill: string;
  readonly spot: string;
  /** What the person does: `loads J-101/10/1 at M1`. */
  readonly does: string;
}

const VERBS: Readonly<Record<AttendanceRole, string>> = {
  load: 'loads',
  check: 'checks',
  work: 'works on',
  unload: 'unloads',
};

export function visitsOf(ctx: Context): Visit[] {
  const forRuns = ctx.stays.flatMap((stay) =>
    ATTENDANCE_ROLES.flatMap((role) => {
      const attendance = stay.planned[role];
      if (attendance === null) return [];
      const { person, start, end } = attendance;
      const { run, machine } = stay.planned;
      const skill = stay.need.operation.skill || stay.machine?.skill || '';
      const does = `${VERBS[role]} ${run} at ${machine}`;
      return [{ person, start, end, role, runs: [run], machine, skill, does, spot: spotOf(ctx, stay, role) }];
    }),
  );
  const forTools = ctx.plan.care.map(({ person, start, end, machine: id }): Visit => {
    const machine = ctx.machines.get(id);
    const spot = machine?.spot || id;
    return {
      person,
      start,
      end,
      role: 'care',
      runs: [],
      machine: id,
      skill: machine?.skill ?? '',
      does: `sees to the tools of ${id}`,
      spot,
    };
  });
  return [...forRuns, ...forTools];
}

function spotOf(ctx: Context, stay: Stay, role: AttendanceRole): string {
  const { machine, planned } = stay;
  const cell = machine?.cell ?? null;
  if (cell !== null && (role === 'load' || role === 'unload')) return ctx.cells.get(cell)?.spot || cell;
  return machine?.spot || planned.machine;
}

/** Minutes to walk from one spot to another. */
export type Walk = (from: string, to: string) => Minute;

export function walkIn({ shop }: Context): Walk {
  const between = new Map<string, Map<string, number>>();
  const add = (from: string, to: string, minutes: number): void => {
    const row = between.get(from) ?? new Map<string, number>();
    between.set(from, row);
    if (!row.has(to)) row.set(to, minutes);
  };
  for (const { from, to, minutes } of shop.walking.between) {
    add(from, to, minutes);
    add(to, from, minutes);
  }
  return (from, to) => (from === to ? 0 : (between.get(from)?.get(to) ?? shop.walking.usual));
}

/** One person's time; each list sorted and joined. */
export interface PersonTime {
  /** In the shop, breaks included. */
  readonly present: readonly Interval[];
  /** Present and not in a break. */
  readonly free: readonly Interval[];
  /** Present outside normal hours. */
  readonly extra: readonly Interval[];
}

export function timeOf({ clock, window }: Context, person: Person): PersonTime {
  const present = expandHours(clock, window, person.hours, person.exceptions);
  const breaks = expandHours(
    clock,
    window,
    person.breaks.map((span) => ({ ...span, days: [...WEEKDAYS] })),
  );
  // Hours given for one date are that date's normal hours, so on it no weekly span is extra.
  const noExtra = person.exceptions.map(({ date }) => ({ date, hours: [] }));
  const weeklyExtra = person.hours.filter((span) => span.extra);
  return {
    present,
    free: subtract(present, breaks),
    extra: expandHours(clock, window, weeklyExtra, noExtra),
  };
}
