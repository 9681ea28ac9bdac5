import { cutMinutes, type FloorEntry, type Machine, type RunNeed } from '../shop';
import { type Interval, minuteOf } from '../time';
import type { Context } from './context';
import { isTable, type Stay } from './stay';
import { isBegun } from './verdict';

/** What a run takes up from `now` on. */
export interface Occupation {
  readonly run: string;
  readonly machine: string;
  readonly pallet: string | null;
  /** In which the machine can do nothing else. */
  readonly busy: Interval;
  /** In which it holds its pallet, and a place where there are places. */
  readonly stay: Interval;
}

export function occupationsOf(ctx: Context): Occupation[] {
  return [...ctx.stays.map((stay) => planned(ctx, stay)), ...leftOnMachines(ctx)];
}

function planned(ctx: Context, stay: Stay): Occupation {
  const { run, machine, pallet, start, end } = stay.planned;
  const whole = from(ctx, stay.on, stay.off);
  return { run, machine, pallet, busy: stay.isTable ? whole : from(ctx, start, end), stay: whole };
}

/** What is on a machine now does not vanish by being left out of the plan: it stays there to the horizon. */
function leftOnMachines(ctx: Context): Occupation[] {
  return [...ctx.left].flatMap((run) => {
    const [need, entry] = [ctx.needs.get(run), ctx.floor.get(run)];
    const machine = ctx.machines.get(entry?.machine ?? '');
    if (need === undefined || entry === undefined || machine === undefined || !isBegun(entry)) return [];
    const stay = from(ctx, ctx.now, ctx.horizon);
    const busy = isTable(machine) ? stay : from(ctx, ctx.now, cutsUntil(ctx, need, entry, machine));
    return { run, machine: machine.id, pallet: entry.pallet, busy, stay };
  });
}

function cutsUntil(ctx: Context, need: RunNeed, entry: FloorEntry, machine: Machine): number {
  const cycle = need.operation.machines.find((choice) => choice.machine === machine.id)?.cycle;
  if (entry.state !== 'running' || entry.start === null || cycle === undefined) return ctx.now;
  return minuteOf(ctx.clock, entry.start) + cutMinutes(need, cycle);
}

function from(ctx: Context, start: number, end: number): Interval {
  return { start: Math.max(start, ctx.now), end };
}
