import type { Operation, RunNeed } from '../shop';
import { type Minute, minuteOf } from '../time';
import { type Context, doneAt } from './context';
import type { Stay } from './stay';
import { type Finding, finding, isBegun } from './verdict';
import { at } from './words';

/**
 * Rule 6, the order of the steps, and rule 7, that the first piece is good before another is begun. The run that
 * begins too early is the culprit: the one before it cannot always come sooner, and where the floor holds this one
 * that is its conflict.
 */
export function checkRoute(ctx: Context): Finding[] {
  return ctx.stays.flatMap((stay) => [
    ...(stay.need.step === 0 ? checkRelease(ctx, stay) : checkStepBefore(ctx, stay)),
    ...checkFirstPieceBefore(ctx, stay),
  ]);
}

function checkRelease(ctx: Context, { planned, need, entry, on }: Stay): Finding[] {
  if (need.job.release === null || isBegun(entry)) return [];
  const release = minuteOf(ctx.clock, need.job.release);
  if (on >= release) return [];
  const say = `Run ${planned.run} goes on ${planned.machine} at ${at(ctx.clock, on)}; its job is released at ${at(ctx.clock, release)}.`;
  return [finding(6, 'before-release', [planned.run], say, 'held')];
}

function checkStepBefore(ctx: Context, stay: Stay): Finding[] {
  const { planned, need, entry, on } = stay;
  const before = need.job.route[need.step - 1];
  if (before === undefined) return [];
  return runsWithItsParts(need, before).flatMap((run) => {
    if (ctx.left.has(run) && !ctx.stayOf.has(run)) {
      const say = `Run ${planned.run} is planned on ${planned.machine}; ${run}, which makes its parts, is left out.`;
      return [finding(6, 'step-before-left', [planned.run, run], say, 'held', [planned.run])];
    }
    const ready = readyAt(ctx, stay, run);
    const begins = isBegun(entry) ? ctx.now : on;
    if (ready === null || begins >= ready) return [];
    const say = `Run ${planned.run} goes on ${planned.machine} at ${at(ctx.clock, on)}; its parts from ${run} are ready at ${at(ctx.clock, ready)}.`;
    return [finding(6, 'step-before', [planned.run, run], say, 'held', [planned.run])];
  });
}

/** The runs of the step before that share a part with this one. */
function runsWithItsParts({ job, firstPart, parts }: RunNeed, before: Operation): string[] {
  const first = Math.floor(firstPart / before.perPallet);
  const last = Math.floor((firstPart + parts - 1) / before.perPallet);
  return Array.from({ length: last - first + 1 }, (_, i) => `${job.id}/${before.id}/${first + i + 1}`);
}

/** When the parts of a run before are ready for this one, or null if nothing is known against it. */
function readyAt(ctx: Context, { need, entry }: Stay, run: string): Minute | null {
  const done = ctx.floor.get(run);
  if (done?.state === 'done') return isBegun(entry) ? null : doneAt(ctx, done) + need.operation.lag;
  const before = ctx.stayOf.get(run);
  if (before === undefined) return null;
  return isBegun(entry) ? before.off : before.off + need.operation.lag;
}

function checkFirstPieceBefore(ctx: Context, { planned, need, entry }: Stay): Finding[] {
  if (need.operation.firstPiece === null || need.number === 1) return [];
  // What has started before `now` has started, checked or not.
  if (entry?.state === 'running' || entry?.state === 'finished') return [];
  const first = `${need.job.id}/${need.operation.id}/1`;
  const start = `Run ${planned.run} starts on ${planned.machine} at ${at(ctx.clock, planned.start)}`;
  const check = ctx.stayOf.get(first)?.planned.check ?? null;
  if (check !== null && planned.start < check.end) {
    const say = `${start}; the first piece, ${first}, is checked until ${at(ctx.clock, check.end)}.`;
    return [finding(7, 'before-check', [planned.run, first], say, 'held', [planned.run])];
  }
  if (!ctx.left.has(first) || ctx.stayOf.has(first)) return [];
  const say = `${start}; the first piece, ${first}, is left out and so not checked.`;
  return [finding(7, 'before-check', [planned.run, first], say, 'held', [planned.run])];
}
