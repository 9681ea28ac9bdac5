import type { Machine } from '../shop';
import { expandHours, type Interval, intersect, minuteOf, subtract } from '../time';
import type { Context } from './context';
import type { Occupation } from './occupation';
import { cuttingOf, type Stay } from './stay';
import { clip, covers, groupBy, isEmpty, overlapping } from './sweep';
import { type Finding, finding } from './verdict';
import { at } from './words';

/** Rule 1: a machine does one thing at a time, in its hours, and is one of the operation's. */
export function checkMachines(ctx: Context, occupations: readonly Occupation[]): Finding[] {
  return [...checkSuits(ctx), ...checkOverlaps(ctx, occupations), ...checkHours(ctx)];
}

function checkSuits(ctx: Context): Finding[] {
  return ctx.stays.flatMap(({ planned: { run, machine: id }, machine, cut }) => {
    if (machine === undefined) {
      return finding(1, 'unknown-machine', [run], `Run ${run} is on ${id}, which the shop does not have.`, 'machine');
    }
    if (cut === null) {
      return finding(1, 'machine-unfit', [run], `Run ${run} is on ${id}, which cannot do its operation.`, 'machine');
    }
    if (!machine.inUse) {
      return finding(1, 'machine-not-in-use', [run], `Run ${run} is on ${id}, which is not in use.`, 'machine');
    }
    return [];
  });
}

function checkOverlaps(ctx: Context, occupations: readonly Occupation[]): Finding[] {
  const spans = occupations.map(({ run, machine, busy: { start, end } }) => ({ run, machine, start, end }));
  return [...groupBy(spans, (span) => span.machine)].flatMap(([machine, group]) =>
    overlapping(group).map(([a, b]) => {
      const say = `${machine} is busy with ${a.run} until ${at(ctx.clock, a.end)} and with ${b.run} from ${at(ctx.clock, b.start)}.`;
      return finding(1, 'machine-overlap', [a.run, b.run], say, 'held');
    }),
  );
}

/** One machine's time ahead: its hours, what is planned off in them, and what is left. */
export interface MachineTime {
  readonly hours: readonly Interval[];
  readonly open: readonly Interval[];
}

function checkHours(ctx: Context): Finding[] {
  const times = new Map([...ctx.machines].map(([id, machine]) => [id, machineTimeOf(ctx, machine)]));
  return ctx.stays.flatMap((stay) => {
    const time = times.get(stay.planned.machine);
    if (time === undefined) return [];
    const outside = needsMachine(stay)
      .map((span) => clip(span, ctx.ahead))
      .find((span) => !isEmpty(span) && !covers(time.open, span));
    return outside === undefined ? [] : closed(ctx, stay, time, outside);
  });
}

function closed(ctx: Context, stay: Stay, time: MachineTime, span: Interval): Finding {
  const { run, machine } = stay.planned;
  const when = `from ${at(ctx.clock, span.start)} to ${at(ctx.clock, span.end)}`;
  return covers(time.hours, span)
    ? finding(1, 'machine-closed', [run], `${machine} is planned off while it works on ${run} ${when}.`, 'held')
    : finding(1, 'machine-hours', [run], `${machine} works on ${run} ${when}, outside its hours.`, 'held');
}

/** The times in which the machine must not be off. A hold, and a finished part that waits, may lie in planned-off time. */
function needsMachine(stay: Stay): Interval[] {
  const { start, end, load, check, unload } = stay.planned;
  if (stay.isBench) return [{ start, end }];
  const hands = stay.isTable ? [load, check, unload] : [check];
  return [...cuttingOf(stay), ...hands.filter((span) => span !== null)];
}

export function machineTimeOf(ctx: Context, machine: Machine): MachineTime {
  const hours = machine.hours.length === 0 ? [ctx.window] : expandHours(ctx.clock, ctx.window, machine.hours);
  const closures = machine.closures.map(({ from, to }) => ({
    start: minuteOf(ctx.clock, from),
    end: minuteOf(ctx.clock, to),
  }));
  return { hours, open: intersect(subtract(hours, closures), [ctx.ahead]) };
}
