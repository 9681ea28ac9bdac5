import { type Counterfactual, EXTRA_HAND, type Relaxation } from '../engine';
import {
  intervalAt,
  type MachineReading,
  operationName,
  type PlanReading,
  personName,
  type RunSpans,
  readyAt,
  stepKey,
  storeOf,
} from '../measure';
import type { Attendance, PlannedRun } from '../shop';
import { type Minute, minuteOf } from '../time';
import type { Freed } from './freedom';
import { whyOff } from './gaps';
import type { Hands } from './hands';
import type { Supply } from './supply';
import { whyNotAlone } from './trust';
import { whyNotReady } from './unloaded';
import { atText, listText } from './words';
import { machineName, skillFor } from './work';

/** What is known when asking what is in the way of a run. */
export interface Ground {
  readonly reading: PlanReading;
  readonly facts: Counterfactual;
  readonly hands: Hands;
  readonly supply: Supply;
}

/** A run, where it could be, and the moment by which the plan has it begin, beside which times are told. */
export interface Blocked extends Freed {
  readonly by: Minute;
}

/** What in the plan keeps the run from where it could be with this one thing relaxed, as a clause. */
export function blockerOf(ground: Ground, blocked: Blocked, kind: Relaxation): string {
  return BLOCKERS[kind](ground, blocked);
}

type Tell = (ground: Ground, blocked: Blocked) => string;

const BLOCKERS: Record<Relaxation, Tell> = {
  lock: lockOn,
  release: notReady,
  route: notReady,
  'first-piece': firstPieceOf,
  off: plannedOff,
  proof: notTrusted,
  tool: shortTool,
  machine: machineTaken,
  pallet: palletTaken,
  place: placesTaken,
  station: stationTaken,
  person: handsTaken,
};

function lockOn({ reading }: Ground, { need, by }: Blocked): string {
  const entry = reading.shop.floor.find(({ run }) => run === need.id);
  if (entry?.start != null) {
    const start = minuteOf(reading.plan.clock, entry.start);
    return `it is locked to start at ${atText(reading.plan.clock, start, by)}`;
  }
  return entry?.pallet == null ? 'it is locked' : `it is locked to pallet ${entry.pallet}`;
}

function notReady({ reading }: Ground, { need, by }: Blocked): string {
  return whyNotReady(reading, need, 'it', readyAt(reading, need), by, reading.plan.now);
}

function firstPieceOf({ reading }: Ground, { need, by }: Blocked): string {
  const first = reading.runOf.get(`${need.job.id}/${need.operation.id}/1`)?.planned.check ?? null;
  const name = operationName(need);
  if (first === null) return `the first piece of ${name} has not passed its check`;
  if (need.number > 1) {
    return `the first piece of ${name} passes its check at ${atText(reading.plan.clock, first.end, by)}`;
  }
  const who = personName(reading.shop, first.person);
  return `${who} can check its first piece at ${atText(reading.plan.clock, first.start, by)}`;
}

function plannedOff({ reading }: Ground, { machine, planned, by }: Blocked): string {
  const read = reading.machines.get(machine.id)!;
  const name = machineName(reading.shop, machine.id);
  const text = (minute: Minute) => atText(reading.plan.clock, minute, by);
  const open = intervalAt(read.open, planned.start);
  if (open !== null) return `it would not be through before ${name} is planned off at ${text(open.end)}`;
  const opens = read.open.find(({ start }) => start > planned.start)?.start;
  const until = opens === undefined ? '' : ` until ${text(opens)}`;
  return `${name} is planned off${until} (${whyOff(read, reading, planned.start)})`;
}

function notTrusted({ reading }: Ground, { need, machine, planned }: Blocked): string {
  const why = whyNotAlone(reading, reading.machines.get(machine.id)!, need, planned.start);
  return why ?? 'it may not cut alone then';
}

function shortTool({ reading, facts }: Ground, { need, machine, planned, relaxed, by }: Blocked): string {
  const others = relaxed.filter((kind) => kind !== 'tool');
  const shortFrom = (start: Minute) => facts.shortTool(need.id, machine.id, { start, end: by }, others);
  const tool = shortFrom(planned.start) ?? shortFrom(reading.plan.now);
  const name = machineName(reading.shop, machine.id);
  const text = (minute: Minute) => atText(reading.plan.clock, minute, by);
  const care = reading.machines.get(machine.id)!.care.filter(({ end }) => end <= by && end > planned.start);
  if (tool === null) {
    const inTheWay = care.at(-1);
    if (inTheWay === undefined) return `the tools of ${name} would not last`;
    const tools = [...new Set(inTheWay.acts.map((act) => act.tool))];
    return `${listText(tools)} on ${name} ${tools.length === 1 ? 'is' : 'are'} seen to until ${text(inTheWay.end)}`;
  }
  const seen = care.filter(({ acts }) => acts.some((act) => act.tool === tool)).at(-1);
  if (seen === undefined) return `${tool} on ${name} would not last for it then`;
  const act = seen.acts.find((one) => one.tool === tool)!.act === 'dress' ? 'dressed' : 'replaced';
  return `${tool} on ${name} would not last for it before it is ${act} at ${text(seen.end)}`;
}

function machineTaken({ reading }: Ground, { need, machine, planned, by }: Blocked): string {
  const read = reading.machines.get(machine.id)!;
  const text = (minute: Minute) => atText(reading.plan.clock, minute, by);
  const name = machineName(reading.shop, machine.id);
  const from = planned.load?.start ?? planned.start;
  const taken = [
    ...read.runs
      .filter((run) => run.need.id !== need.id)
      .map((run) => ({ ...run.busy, what: `busy with ${runName(reading, run.need)}` })),
    ...read.care.map(({ start, end }) => ({ start, end, what: 'stopped for its tools' })),
  ].filter(({ end }) => end > from);
  const before = taken.filter(({ end }) => end <= by).sort((a, b) => b.end - a.end)[0];
  if (before !== undefined) return `${name} is ${before.what} until ${text(before.end)}`;
  const next = taken.sort((a, b) => a.start - b.start)[0];
  if (next === undefined) return `${name} is not free`;
  return `it would not be through before ${name} is ${next.what} from ${text(next.start)}`;
}

function palletTaken({ reading, supply }: Ground, { need, machine, planned, by }: Blocked): string {
  const { clock } = reading.plan;
  const fixture = need.operation.fixture ?? '';
  const pallets = supply.fitting(fixture, machine);
  const from = onOf(planned);
  const held = pallets.map(({ id }) => {
    const runs = (reading.onPallet.get(id) ?? []).filter((run) => run.need.id !== need.id && run.off > from);
    return { id, run: runs.filter(({ off }) => off <= by).at(-1) ?? runs[0] };
  });
  const all = ['no pallet', 'the only pallet', 'both pallets'][pallets.length] ?? `all ${pallets.length} pallets`;
  const lead = `${all} with fixture ${fixture} ${pallets.length === 1 ? 'is' : 'are'} taken`;
  // The one that is free first.
  const first = held
    .flatMap(({ id, run }) => (run === undefined ? [] : [{ id, run }]))
    .sort((a, b) => a.run.off - b.run.off)[0];
  if (first === undefined) return lead;
  const where = `is on ${machineName(reading.shop, first.run.machine.id)} with ${runName(reading, first.run.need)}`;
  return `${lead}; ${first.id} ${where} until ${atText(clock, first.run.off, by)}`;
}

function placesTaken({ reading, supply }: Ground, { need, machine, planned, by }: Blocked): string {
  const others = inStore(reading, machine, need.id).filter(({ off, on }) => off > onOf(planned) && on < by);
  const leaves = others.filter(({ off }) => off <= by).at(-1) ?? others[0];
  const held = `${supply.placesBe(machine, 'now')} held`;
  if (leaves === undefined) return held;
  return `${held} until ${runName(reading, leaves.need)} is taken off at ${atText(reading.plan.clock, leaves.off, by)}`;
}

function stationTaken({ reading }: Ground, { need, machine, planned, by }: Blocked): string {
  const uses = inStore(reading, machine, need.id).flatMap((run) =>
    run.attendances
      .filter(({ role }) => role === 'load' || role === 'unload')
      .map(({ end, start, role }) => ({ start, end, what: `${role} of ${runName(reading, run.need)}` })),
  );
  const wanted = [planned.load, planned.unload].filter((hand) => hand !== null);
  const use = uses.find(({ start, end }) => wanted.some((hand) => start < hand.end && end > hand.start));
  const which = machine.cell === null ? machineName(reading.shop, machine.id) : `cell ${machine.cell}`;
  if (use === undefined) return `the load station of ${which} is in use`;
  return `the load station of ${which} is in use for the ${use.what} until ${atText(reading.plan.clock, use.end, by)}`;
}

/** In order of leaving. */
function inStore(reading: PlanReading, machine: MachineReading['machine'], but: string): RunSpans[] {
  const runs = reading.runsInStore.get(storeOf(machine)) ?? [];
  return runs.filter(({ need }) => need.id !== but).sort((a, b) => a.off - b.off);
}

const TO: Record<'load' | 'check' | 'work' | 'unload', string> = {
  load: 'nobody is free to load it',
  check: 'nobody is free to check its first piece',
  work: 'nobody is free to work on it',
  unload: 'nobody is free to take it off',
};

function handsTaken(ground: Ground, { need, machine, planned, by }: Blocked): string {
  const { reading } = ground;
  const was = reading.runOf.get(need.id)?.planned;
  for (const role of ['load', 'work', 'check', 'unload'] as const) {
    const hand = planned[role];
    if (hand?.person !== EXTRA_HAND) continue;
    return `${TO[role]}: ${keptFrom(ground, need, machine, hand, was?.[role]?.start ?? by)}`;
  }
  const why = whyNotAlone(reading, reading.machines.get(machine.id)!, need, planned.start);
  return why ?? 'nobody would be there while it cuts';
}

/** What keeps everybody who can from doing it then. */
export function keptFrom(
  { hands }: Pick<Ground, 'hands'>,
  need: Freed['need'],
  machine: Freed['machine'],
  hand: Attendance,
  until: Minute,
): string {
  const within = { start: hand.start, end: Math.max(until, hand.start + 1) };
  return hands.keptBy(skillFor(need, machine), hand.end - hand.start, within);
}

function onOf(planned: PlannedRun): Minute {
  return planned.load?.start ?? planned.start;
}

/** `J-104 op 10`, or `J-104 op 10 run 2` where the operation has several. */
export function runName(reading: PlanReading, need: Freed['need']): string {
  const several = reading.needs.get(stepKey(need.job.id, need.step))!.length > 1;
  return `${operationName(need)}${several ? ` run ${need.number}` : ''}`;
}
