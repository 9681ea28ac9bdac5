import { lengthText } from '../time';
import type { Context } from './context';
import { checkOf, type Stay } from './stay';
import { type Finding, finding } from './verdict';
import { at } from './words';

/** Rules 1 and 7, the run itself: it cuts as long as its cycle says, held where it must be for its first piece. */
export function checkCutting(ctx: Context): Finding[] {
  return ctx.stays.flatMap((stay) => (stay.isBench ? [] : [...checkFirstPiece(ctx, stay), ...checkCut(ctx, stay)]));
}

function checkFirstPiece(ctx: Context, stay: Stay): Finding[] {
  const { run, machine, check, start } = stay.planned;
  const wanted = checkOf(stay, ctx.now);
  if (check === null) {
    if (wanted !== 'due') return [];
    return [finding(7, 'check-missing', [run], `Run ${run} on ${machine} is the first piece and nobody checks it.`)];
  }
  const { firstPiece } = stay.need.operation;
  if (wanted === 'none' || firstPiece === null) {
    // What is wrong with a check of a finished run is that the floor has it finished.
    if (stay.entry?.state === 'finished') return [];
    return [finding(7, 'check-not-needed', [run], `Run ${run} on ${machine} has a first-piece check and needs none.`)];
  }
  const found: Finding[] = [];
  if (check.end - check.start !== firstPiece.minutes) {
    const say = `${check.person} is given ${lengthText(check.end - check.start)} for the first piece of ${run} on ${machine}; the check takes ${lengthText(firstPiece.minutes)}.`;
    found.push(finding(7, 'check-length', [run], say));
  }
  const hold = start + stay.untilHold;
  if (check.start < hold) {
    const say = `${check.person} checks the first piece of ${run} on ${machine} at ${at(ctx.clock, check.start)}; it is ready at ${at(ctx.clock, hold)}.`;
    found.push(finding(7, 'check-early', [run], say));
  }
  return found;
}

function checkCut(ctx: Context, stay: Stay): Finding[] {
  // When these end is for the floor to say.
  if (stay.entry?.state === 'running' || stay.entry?.state === 'finished') return [];
  const { run, machine, start, end, check } = stay.planned;
  if (stay.cut === null) {
    // How long a machine that cannot do the operation would take is not known; but it would take some time.
    if (end > start && (check === null || end >= check.end)) return [];
    return [finding(1, 'cut-length', [run], `Run ${run} on ${machine} ends before it has been cut.`)];
  }
  const right = check === null ? start + stay.cut : check.end + stay.cut - stay.untilHold;
  if (end === right) return [];
  const say = `Run ${run} on ${machine} cuts ${lengthText(stay.cut)} and would end at ${at(ctx.clock, right)}, not at ${at(ctx.clock, end)}.`;
  return [finding(1, 'cut-length', [run], say)];
}
