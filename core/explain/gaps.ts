import type { Gap } from '../contract';
import { clip, type MachineReading, type PlanReading, readPlan } from '../measure';
import type { Plan, Shop } from '../shop';
import { type Interval, intersect, type Minute, minuteOf, subtract } from '../time';
import { type Hands, handsOf } from './hands';
import { gapsFrom, type Piece } from './piece';
import { type Standing, standingsOf } from './standing';
import { type Supply, supplyOf } from './supply';
import { type Asked, alikeWork, attendedPieces, unattendedPieces } from './unloaded';
import { clause } from './words';
import { type Work, workByMachine } from './work';

/**
 * Why each machine stands, by machine: every minute from the plan's moment to its horizon in which it neither cuts nor
 * is worked at, cut where it goes planned off and where people come and go.
 */
export function gapsOf(shop: Shop, plan: Plan, reading: PlanReading = readPlan(shop, plan)): Map<string, Gap[]> {
  const found = gapsIn(reading, handsOf(reading), supplyOf(reading));
  return new Map([...reading.machines.values()].map((machine) => [machine.machine.id, found(machine)]));
}

/** As {@link gapsOf}, machine by machine. */
export function gapsIn(reading: PlanReading, hands: Hands, supply: Supply): (machine: MachineReading) => Gap[] {
  const works = workByMachine(reading);
  return (machine) => gapsOfMachine({ reading, machine, hands, supply, works: works.get(machine.machine.id) ?? [] });
}

interface Known {
  readonly reading: PlanReading;
  readonly machine: MachineReading;
  readonly hands: Hands;
  readonly supply: Supply;
  readonly works: readonly Work[];
}

function gapsOfMachine(known: Known): Gap[] {
  const { reading, machine, works } = known;
  const { plan, window } = reading;
  const asked: Asked = { ...known, alike: alikeWork(machine, works, window.end) };
  const standings = standingsOf(reading, machine);
  const attended = reading.stretches.filter((s) => s.attended);
  // Left-out work, last in order, keeps it from ever having nothing due.
  const lastOn = works.at(-1)?.on ?? window.start;
  return partsOf(machine, attended).flatMap((part) => {
    const pieces = part.off ? [offPiece(known, part)] : openPieces(asked, part, standings, lastOn);
    return gapsFrom(pieces, plan.clock, window.end);
  });
}

interface Part extends Interval {
  readonly off: boolean;
  readonly attended: boolean;
}

/** The machine's idle time, cut where it goes on and off and where people come and go. */
function partsOf({ idle, open }: MachineReading, attended: readonly Interval[]): Part[] {
  return idle.flatMap((whole) =>
    split(whole, open).flatMap((piece) =>
      split(piece, attended).map(({ start, end, inside }) => ({ start, end, off: !piece.inside, attended: inside })),
    ),
  );
}

/** `whole` cut into what lies inside and outside of `others` (sorted, apart), in order. */
function split(whole: Interval, others: readonly Interval[]): (Interval & { readonly inside: boolean })[] {
  const inside = clip(others, whole);
  const outside = subtract([whole], inside);
  return [...inside.map((i) => ({ ...i, inside: true })), ...outside.map((i) => ({ ...i, inside: false }))].sort(
    (a, b) => a.start - b.start,
  );
}

function openPieces(asked: Asked, part: Part, standings: readonly Standing[], lastOn: Minute): Piece[] {
  let rest: Interval[] = [{ start: part.start, end: part.end }];
  const pieces: Piece[] = [];
  for (const standing of standings) {
    if (standing.end <= part.start || standing.start >= part.end) continue;
    const standsHere = intersect(rest, [standing]);
    pieces.push(...standsHere.map((i) => ({ ...standing, ...i })));
    rest = subtract(rest, standsHere);
  }
  const due = intersect(rest, [{ start: part.start, end: lastOn }]);
  const over = subtract(rest, due);
  return [
    ...pieces,
    ...due.flatMap((i) => (part.attended ? attendedPieces(asked, i) : unattendedPieces(asked, i))),
    ...over.map((i): Piece => ({ ...i, reason: 'nothing-due', because: () => 'no work is left that it can do' })),
  ];
}

function offPiece({ reading, machine }: Known, { start, end }: Interval): Piece {
  const opens = machine.open.find((i) => i.start >= end)?.start ?? reading.window.end;
  return { start, end, reason: 'off', because: () => whyOff(machine, reading, start), until: opens };
}

/** Why a machine is planned off at a minute, as a clause. */
export function whyOff({ machine }: MachineReading, { plan }: PlanReading, minute: Minute): string {
  if (!machine.inUse) return 'it is out of use';
  const from = (time: string) => minuteOf(plan.clock, time);
  const closure = machine.closures.find((c) => from(c.from) <= minute && minute < from(c.to));
  return closure === undefined ? 'outside its hours' : clause(closure.why) || 'it is closed';
}
