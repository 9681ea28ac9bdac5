import type { Round, Stop } from '../contract';
import { type Plan, ROUND_PAUSE, type Shop } from '../shop';
import { latestBegins, spotOfVisit, type Visit, visitsByPerson } from './latest';
import { countText, operationName } from './names';
import { type PlanReading, readPlan } from './reading';

/**
 * Everybody's rounds in order of start: a new one begins wherever more than the walk and {@link ROUND_PAUSE} minutes
 * lie between one attendance's end and the next one's start.
 */
export function roundsOf(shop: Shop, plan: Plan, reading: PlanReading = readPlan(shop, plan)): Round[] {
  const latest = latestBegins(reading);
  const rounds: Round[] = [];
  for (const [person, visits] of visitsByPerson(reading)) {
    let current: Visit[] = [];
    for (const visit of visits) {
      const before = current.at(-1);
      if (before !== undefined && pauseBetween(reading, before, visit) > ROUND_PAUSE) {
        rounds.push(roundFrom(person, current, latest));
        current = [];
      }
      current.push(visit);
    }
    rounds.push(roundFrom(person, current, latest));
  }
  return rounds.sort((a, b) => a.start - b.start || (a.person < b.person ? -1 : 1));
}

function pauseBetween(reading: PlanReading, before: Visit, after: Visit): number {
  const walk = reading.walks.between(spotOfVisit(reading, before), spotOfVisit(reading, after));
  return after.attended.start - before.attended.end - walk;
}

function roundFrom(person: string, visits: readonly Visit[], latest: (visit: Visit) => number): Round {
  const stops = visits.map((visit) => stopFrom(visit, latest(visit)));
  return { person, start: stops[0]!.start, end: Math.max(...stops.map((stop) => stop.end)), stops };
}

function stopFrom(visit: Visit, latest: number): Stop {
  const { run, attended } = visit;
  return {
    role: attended.role,
    run: run.need.id,
    machine: run.machine.id,
    pallet: run.planned.pallet,
    start: attended.start,
    end: attended.end,
    latest,
    say: sayOf(visit),
  };
}

function sayOf({ run, attended }: Visit): string {
  const work = operationName(run.need);
  const parts = countText(run.need.parts, 'part');
  const pallet = run.planned.pallet;
  switch (attended.role) {
    case 'load':
      return pallet === null ? `Load ${work} (${parts})` : `Load ${pallet} for ${work} (${parts})`;
    case 'unload':
      return pallet === null ? `Unload ${work} (${parts})` : `Unload ${pallet} with ${work} (${parts})`;
    case 'check':
      return `Check first piece of ${work}`;
    case 'work':
      return `Work on ${work} (${parts})`;
  }
}
