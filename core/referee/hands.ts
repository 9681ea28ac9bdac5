import type { Attendance } from '../shop';
import { lengthText } from '../time';
import type { Context } from './context';
import type { Stay } from './stay';
import { type Finding, finding, isBegun } from './verdict';
import { at } from './words';

/**
 * Rules 3 and 4, the run itself: loaded before it starts, taken off after it ends, each for as long as the operation
 * says; on the table it starts when loading ends. Rule 2 for the one attendance that is all of a run at a bench.
 */
export function checkHands(ctx: Context): Finding[] {
  return ctx.stays.flatMap((stay) =>
    stay.isBench ? checkBench(stay) : [...checkLoad(ctx, stay), ...checkUnload(ctx, stay)],
  );
}

function checkBench({ planned, need, entry, cut }: Stay): Finding[] {
  const { run, machine, load, check, unload, work, start, end } = planned;
  const found: Finding[] = [];
  if (load !== null || check !== null || unload !== null) {
    const say = `${machine} is a bench: loading, checks and unloading of ${run} are part of the work there.`;
    found.push(finding(2, 'bench-attendance', [run], say));
  }
  if (work === null) {
    if (entry?.state === 'finished') return found;
    return [
      ...found,
      finding(2, 'work-missing', [run], `Nobody is planned to do the work of ${run} at bench ${machine}.`),
    ];
  }
  const isTooShort = cut === 0 ? end < start : end <= start;
  if (work.start !== start || work.end !== end || isTooShort) {
    const say = `${work.person} does not work on ${run} at ${machine} from its start to its end.`;
    found.push(finding(2, 'work-span', [run], say));
  }
  if (cut === null || entry?.state === 'running' || entry?.state === 'finished') return found;
  const minutes = need.operation.load + cut + need.operation.unload;
  if (end - start !== minutes) {
    const say = `The work on ${run} at ${machine} is planned for ${lengthText(end - start)}; it takes ${lengthText(minutes)}.`;
    found.push(finding(2, 'work-length', [run], say));
  }
  return found;
}

function checkLoad(ctx: Context, stay: Stay): Finding[] {
  const { run, machine, load, work, start } = stay.planned;
  const found: Finding[] = [];
  if (work !== null) {
    const say = `${machine} is no bench: ${run} there is not worked on by hand.`;
    found.push(finding(2, 'work-not-at-bench', [run], say));
  }
  if (isBegun(stay.entry)) {
    if (load === null) return found;
    return [
      ...found,
      finding(10, 'floor-load', [run], `Run ${run} is on ${machine} already and is planned to be loaded.`),
    ];
  }
  found.push(...checkLength(stay, 'load', load, stay.need.operation.load));
  if (load === null) return found;
  if (stay.isTable && load.end !== start) {
    const say = `${machine} is loaded on the table until ${at(ctx.clock, load.end)}; ${run} has to start then, not at ${at(ctx.clock, start)}.`;
    return [...found, finding(4, 'table-start', [run], say)];
  }
  if (load.end <= start) return found;
  const say = `Run ${run} starts on ${machine} at ${at(ctx.clock, start)} and is being loaded until ${at(ctx.clock, load.end)}.`;
  return [...found, finding(3, 'load-late', [run], say)];
}

function checkUnload(ctx: Context, stay: Stay): Finding[] {
  const { run, machine, unload, end } = stay.planned;
  const found = checkLength(stay, 'unload', unload, stay.need.operation.unload);
  if (unload === null || unload.start >= end) return found;
  const say = `Run ${run} ends on ${machine} at ${at(ctx.clock, end)} and is unloaded from ${at(ctx.clock, unload.start)}.`;
  return [...found, finding(3, 'unload-early', [run], say)];
}

function checkLength(stay: Stay, role: 'load' | 'unload', given: Attendance | null, minutes: number): Finding[] {
  const { run, machine } = stay.planned;
  if (given === null) {
    if (minutes === 0) return [];
    return [finding(3, `${role}-missing`, [run], `Nobody is planned to ${role} ${run} at ${machine}.`)];
  }
  if (minutes === 0) {
    return [finding(3, `${role}-not-needed`, [run], `Run ${run} needs nobody to ${role} it at ${machine}.`)];
  }
  if (given.end - given.start === minutes) return [];
  const planned = lengthText(given.end - given.start);
  const say = `${given.person} is given ${planned} to ${role} ${run} at ${machine}; it takes ${lengthText(minutes)}.`;
  return [finding(3, `${role}-length`, [run], say)];
}
