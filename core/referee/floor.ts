import { ATTENDANCE_ROLES, type FloorEntry } from '../shop';
import { type Minute, minuteOf } from '../time';
import type { Context } from './context';
import type { Stay } from './stay';
import { type Finding, finding, isHeld } from './verdict';
import { at } from './words';

/** Rule 10: nothing begins before now or ends after the horizon, and what the floor says holds. */
export function checkFloor(ctx: Context): Finding[] {
  return [
    ...ctx.stays.flatMap((stay) => [...checkNow(ctx, stay), ...checkHorizon(ctx, stay), ...checkEntry(ctx, stay)]),
    ...checkLeft(ctx),
  ];
}

function checkNow(ctx: Context, { planned, entry, isBench }: Stay): Finding[] {
  const started = entry?.state === 'running' || entry?.state === 'finished';
  const starts = ATTENDANCE_ROLES.flatMap((role) => {
    const attendance = planned[role];
    return attendance === null || (started && isBench && role === 'work') ? [] : [attendance.start];
  });
  const first = Math.min(...starts, ...(started ? [] : [planned.start]));
  if (first >= ctx.now) return [];
  const say = `Run ${planned.run} on ${planned.machine} has something begin at ${at(ctx.clock, first)}, before the plan's moment ${at(ctx.clock, ctx.now)}.`;
  // Only a lock can ask for what is past; what is on a machine asks for nothing to begin at all.
  return [finding(10, 'before-now', [planned.run], say, entry?.state === 'locked' ? 'held' : 'none')];
}

function checkHorizon(ctx: Context, { planned }: Stay): Finding[] {
  const ends = ATTENDANCE_ROLES.map((role) => planned[role]?.end ?? planned.end);
  const last = Math.max(planned.end, ...ends);
  if (last <= ctx.horizon) return [];
  const say = `Run ${planned.run} on ${planned.machine} lasts until ${at(ctx.clock, last)}, beyond the horizon ${at(ctx.clock, ctx.horizon)}.`;
  return [finding(10, 'beyond-horizon', [planned.run], say, 'held')];
}

function checkEntry(ctx: Context, stay: Stay): Finding[] {
  const { planned, entry } = stay;
  if (entry === undefined) return [];
  if (entry.state === 'done') return [isDone(planned.run)];
  const found: Finding[] = [];
  const differs = (code: string, has: string, says: string): void => {
    const say = `The floor has run ${planned.run} ${entry.state} ${says}; the plan has it ${has}.`;
    found.push(finding(10, code, [planned.run], say));
  };
  if (entry.machine !== null && entry.machine !== planned.machine) {
    differs('floor-machine', `on ${planned.machine}`, `on ${entry.machine}`);
  }
  if (entry.pallet !== null && entry.pallet !== planned.pallet) {
    differs('floor-pallet', planned.pallet === null ? 'on no pallet' : `on ${planned.pallet}`, `on ${entry.pallet}`);
  }
  const start = startSaid(ctx, stay, entry);
  if (start !== null && start !== planned.start) {
    differs('floor-start', `from ${at(ctx.clock, planned.start)}`, `from ${at(ctx.clock, start)}`);
  } else if (entry.state === 'running' && planned.start > ctx.now) {
    differs('floor-start', `only from ${at(ctx.clock, planned.start)}`, 'now');
  }
  const end = endSaid(ctx, stay, entry);
  if (end !== null && end !== planned.end) {
    differs('floor-end', `until ${at(ctx.clock, planned.end)}`, `until ${at(ctx.clock, end)}`);
  }
  if (entry.state === 'finished' && planned.check !== null) {
    differs('floor-check', 'checked for its first piece', `on ${planned.machine}`);
  }
  return found;
}

function isDone(run: string): Finding {
  return finding(10, 'done-planned', [run], `Run ${run} is done and off; the plan still names it.`);
}

/** When the floor says the run starts or started, or null if it leaves that open. */
function startSaid(ctx: Context, stay: Stay, entry: FloorEntry): Minute | null {
  if (entry.state === 'loaded') return null;
  if (entry.start !== null) return minuteOf(ctx.clock, entry.start);
  const length = lengthOf(stay);
  return entry.state === 'finished' && length !== null ? stay.planned.end - length : null;
}

/** When a run that has started ends, as the floor has it, or null if that is open. */
function endSaid(ctx: Context, stay: Stay, entry: FloorEntry): Minute | null {
  if (entry.state === 'finished') return entry.end === null ? ctx.now : minuteOf(ctx.clock, entry.end);
  const length = lengthOf(stay);
  if (entry.state !== 'running' || length === null) return null;
  const { start, check } = stay.planned;
  if (check !== null && !stay.isBench) return check.end + length - stay.untilHold;
  return Math.max(start + length, ctx.now);
}

function lengthOf({ cut, isBench, need: { operation } }: Stay): Minute | null {
  if (cut === null || !isBench) return cut;
  return operation.load + cut + operation.unload;
}

function checkLeft(ctx: Context): Finding[] {
  return [...ctx.left].flatMap((run) => {
    const entry = ctx.floor.get(run);
    if (entry === undefined || !ctx.needs.has(run)) return [];
    if (entry.state === 'done') return [isDone(run)];
    if (!isHeld(entry)) return [];
    const where = entry.machine === null ? '' : ` on ${entry.machine}`;
    const say = `The floor has run ${run} ${entry.state}${where}; the plan leaves it out.`;
    return [finding(10, 'floor-left', [run], say, 'held')];
  });
}
