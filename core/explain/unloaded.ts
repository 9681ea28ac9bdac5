import {
  clip,
  groupBy,
  intervalAt,
  isTable,
  type MachineReading,
  neighbours,
  offOf,
  operationName,
  type PlanReading,
  storeOf,
} from '../measure';
import type { RunNeed } from '../shop';
import { type Interval, intersect, lengthText, type Minute, subtract, union } from '../time';
import type { Hands } from './hands';
import type { Piece } from './piece';
import type { Supply } from './supply';
import { whyNoneAlone, whyNotAlone } from './trust';
import { atText, clause } from './words';
import { cutOn, handMinutes, machineName, skillFor, type Work } from './work';

/** What is known of one machine when asking why nothing is loaded. */
export interface Asked {
  readonly reading: PlanReading;
  readonly machine: MachineReading;
  readonly hands: Hands;
  readonly supply: Supply;
  /** Work it could take, in order of `on`. */
  readonly works: readonly Work[];
  readonly alike: readonly Alike[];
}

/** Work that asks for the same things; it can be loaded or not all at once. */
interface Alike {
  readonly works: readonly Work[];
  /** When some of it is ready and not on. */
  readonly waiting: readonly Interval[];
  readonly fixture: string | null;
  readonly skill: string;
  readonly minutes: number;
  /** Minutes the machine must stay open for it. */
  readonly open: number;
}

/** The machine's work in groups of like needs, those it takes itself in the plan first. */
export function alikeWork(machine: MachineReading, works: readonly Work[], horizon: Minute): Alike[] {
  const own = works.filter((w) => w.machine?.id === machine.machine.id);
  const others = works.filter((w) => w.machine?.id !== machine.machine.id);
  // Work locked to a start waits for that, not for a hand.
  const free = [...own, ...others].filter((w) => w.lockedTo === null && w.ready < Math.min(w.on, horizon));
  const asks = (w: Work) => ({
    fixture: w.need.operation.fixture,
    skill: skillFor(w.need, machine.machine),
    minutes: handMinutes(w.need, machine.machine),
    open: openMinutes(w, machine),
  });
  return [...groupBy(free, (w) => JSON.stringify(asks(w))).values()].map((group) => ({
    ...asks(group[0]!),
    works: group,
    waiting: union(group.map((w) => ({ start: w.ready, end: Math.min(w.on, horizon) }))),
  }));
}

function openMinutes({ need }: Work, { machine }: MachineReading): number {
  if (machine.kind === 'bench') return handMinutes(need, machine);
  return cutOn(need, machine) + (isTable(machine) ? need.operation.load : 0);
}

/** Pieces for attended time in which nothing is on the machine: a hand is missing, or it is dry for another reason. */
export function attendedPieces(asked: Asked, within: Interval): Piece[] {
  let rest: Interval[] = [within];
  const pieces: Piece[] = [];
  for (const group of asked.alike) {
    if (rest.length === 0) break;
    const missing = intersect(rest, handMissing(asked, group, within));
    pieces.push(...missing.map((i) => handPiece(asked, group, i)));
    rest = subtract(rest, missing);
  }
  return [...pieces, ...rest.map((i) => dryPiece(asked, i))];
}

/** When work of the group could be loaded and nobody is free to do it. */
function handMissing({ machine, hands, supply, reading }: Asked, group: Alike, within: Interval): Interval[] {
  if (group.minutes === 0) return [];
  let waiting = clip(group.waiting, within);
  if (waiting.length === 0) return [];
  waiting = intersect(waiting, clip(supply.palletsFree(group.fixture, machine.machine), within));
  waiting = subtract(waiting, clip(supply.placesBlocked(machine.machine), within));
  waiting = intersect(waiting, fitting(machine, group.open, within));
  const spot = reading.walks.spotOf(machine.machine, machine.machine.kind === 'bench' ? 'work' : 'load');
  return waiting.flatMap((i) => subtract([i], hands.free(spot, group.skill, group.minutes, i)));
}

/** When a start still leaves `minutes` before the machine is off. */
function fitting(machine: MachineReading, minutes: number, within: Interval): Interval[] {
  return clip(machine.open, within).flatMap(({ start, end }) => {
    const off = intervalAt(machine.open, start)!.end;
    const last = Math.min(end, off - minutes + 1);
    return last > start ? [{ start, end: last }] : [];
  });
}

function handPiece({ hands, machine }: Asked, group: Alike, { start, end }: Interval): Piece {
  const because = () => {
    const work = group.works.find((w) => w.ready <= start && start < w.on) ?? group.works[0]!;
    const begun = machine.machine.kind === 'bench' ? 'begun' : 'loaded';
    return `${operationName(work.need)} could be ${begun}, but ${hands.keptBy(group.skill, group.minutes, { start, end })}`;
  };
  return { start, end, reason: 'hand', because };
}

function dryPiece(asked: Asked, { start, end }: Interval): Piece {
  // What holds at the last minute held longest.
  return { start, end, reason: 'dry', because: () => whyDry(asked, start, end - 1) };
}

/** Why the work the machine would take next is not on at `minute`, told beside the time `beside`. */
function whyDry(asked: Asked, beside: Minute, minute: Minute): string {
  const { machine, works, supply, reading } = asked;
  const { clock } = reading.plan;
  const later = works.filter((w) => w.on > minute);
  const work = later.find((w) => w.machine?.id === machine.machine.id) ?? later[0]!;
  const name = operationName(work.need);
  const text = (at: Minute) => atText(clock, at, beside);
  if (work.lockedTo !== null && work.lockedTo > minute) return `${name} is locked to start at ${text(work.lockedTo)}`;
  if (work.ready > minute) return whyNotReady(reading, work.need, name, work.ready, beside, minute);
  const fixture = work.need.operation.fixture;
  if (intervalAt(supply.palletsFree(fixture, machine.machine), minute) === null) {
    return `${name} waits for a pallet with fixture ${fixture}, ${palletsHeld(asked, work, fixture ?? '')}`;
  }
  if (intervalAt(supply.placesBlocked(machine.machine), minute) !== null) {
    return `${supply.placesBe(machine.machine, 'now')} held by work still to be cut`;
  }
  const off = intervalAt(machine.open, minute)?.end ?? minute;
  if (minute + openMinutes(work, machine) > off) {
    return `${name} does not fit before ${off < reading.window.end ? `it is off at ${text(off)}` : 'the end of the plan'}`;
  }
  const trust = whyNotAlone(reading, machine, work.need, minute);
  if (trust !== null) return trust;
  if (work.machine === null) return `${name} is left out: ${clause(reading.left.get(work.need.id) ?? '')}`;
  if (work.machine.id === machine.machine.id) return `the plan puts ${name} on at ${text(work.on)}`;
  return `the plan keeps ${name} for ${machineName(reading.shop, work.machine.id)} at ${text(work.on)}`;
}

/** Why a run, called `name`, may not be on before `ready`: what is in its way at `minute`, told beside the time `beside`. */
export function whyNotReady(
  reading: PlanReading,
  need: RunNeed,
  name: string,
  ready: Minute,
  beside: Minute,
  minute: Minute,
): string {
  const text = (at: Minute) => atText(reading.plan.clock, at, beside);
  if (need.step === 0) return `${need.job.id} is released at ${text(ready)}`;
  const last = neighbours(reading, need, -1).reduce((a, b) => (offOf(reading, b.id) > offOf(reading, a.id) ? b : a));
  const off = offOf(reading, last.id);
  const before = `op ${last.operation.id}`;
  if (off === Number.POSITIVE_INFINITY) return `${name} waits for ${before}, which is left out`;
  if (off <= minute) return `${name} waits ${lengthText(need.operation.lag)} after ${before}, until ${text(ready)}`;
  const machine = reading.runOf.get(last.id)?.machine.id ?? '';
  return `${name} waits for ${before}, which is off ${machineName(reading.shop, machine)} at ${text(off)}`;
}

function palletsHeld({ reading, machine, supply }: Asked, work: Work, fixture: string): string {
  const count = supply.fitting(fixture, machine.machine).length;
  const planned = reading.runOf.get(work.need.id)?.planned.pallet;
  const runs = planned == null ? [] : (reading.onPallet.get(planned) ?? []);
  const holder = runs[runs.findIndex((run) => run.need.id === work.need.id) - 1];
  const all = count === 1 ? 'and the only one is in use' : `and all ${count} are in use`;
  return holder === undefined ? all : `${all}; ${planned} is with ${operationName(holder.need)}`;
}

/** The piece for unattended time in which nothing is on the machine. */
export function unattendedPieces(asked: Asked, within: Interval): Piece[] {
  const { machine, works, reading } = asked;
  const trust = whyNoneAlone(reading, machine, works, within);
  if (trust !== null) return [{ ...within, reason: 'dry', because: () => trust }];
  const next = works.find((w) => w.on > within.start && w.machine?.id === machine.machine.id) ?? works.at(-1);
  const byItself = next !== undefined && handMinutes(next.need, machine.machine) === 0;
  if (byItself) return [dryPiece(asked, within)];
  if (machine.machine.kind === 'bench') {
    if (!works.some((w) => w.on > within.start && w.ready <= within.start)) return [dryPiece(asked, within)];
    return [{ ...within, reason: 'hand', because: () => 'nobody is here to work at it' }];
  }
  return [{ ...within, reason: 'dry', because: () => `${whatIsUsedUp(asked, within)} and nobody is here to load` }];
}

function whatIsUsedUp({ reading, machine, supply }: Asked, { start }: Interval): string {
  const stretch = intervalAt(reading.stretches, start);
  const stopped = machine.cutting.filter((i) => i.end <= start).at(-1)?.end;
  if (stretch === null || stopped === undefined || stopped <= stretch.start) return 'nothing is loaded';
  const at = atText(reading.plan.clock, stopped, start);
  if (intervalAt(reading.placesFull.get(storeOf(machine.machine)) ?? [], start) !== null) {
    return `${supply.placesBe(machine.machine, 'then')} used up at ${at}`;
  }
  return `its last load was done at ${at}`;
}
