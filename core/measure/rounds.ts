import type { Round, Stop } from '../contract';
import { type Plan, ROUND_PAUSE, type Shop, type ToolCare } from '../shop';
import { latestBegins, type RunVisit, spotOfVisit, type Visit, visitsByPerson } from './latest';
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
  const { run, attended, machine } = visit;
  return {
    role: attended.role,
    run: run?.need.id ?? null,
    machine: machine.id,
    pallet: run?.planned.pallet ?? null,
    start: attended.start,
    end: attended.end,
    latest,
    say: visit.run === null ? sayOfCare(visit.care) : sayOf(visit),
  };
}

/** `Replace EM16 and DR08`, `Dress CB91, replace EM10`. */
function sayOfCare({ acts }: ToolCare): string {
  const of = (act: 'dress' | 'replace') => [...new Set(acts.filter((one) => one.act === act).map(({ tool }) => tool))];
  const [dressed, replaced] = [of('dress'), of('replace')];
  const parts = [
    ...(dressed.length > 0 ? [`dress ${listOf(dressed)}`] : []),
    ...(replaced.length > 0 ? [`replace ${listOf(replaced)}`] : []),
  ];
  const say = parts.join(', ');
  return say.charAt(0).toUpperCase() + say.slice(1);
}

function listOf(names: readonly string[]): string {
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}

function sayOf({ run, attended }: RunVisit): string {
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
    default:
      return `Work on ${work} (${parts})`;
  }
}
