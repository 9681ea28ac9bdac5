import { type Minute, minuteOf } from '../time';
import { groupBy, type PlanReading, placesOf, storeOf } from './reading';
import { neighbours } from './route';
import { type Attended, isBench, isTable, type RunSpans } from './spans';
import { firstIn, fullTimes, intervalAt } from './sweep';

const NEVER = Number.POSITIVE_INFINITY;

/** One attendance of one run. */
export interface Visit {
  readonly run: RunSpans;
  readonly attended: Attended;
}

/** Every attendance of each person in order of start. */
export function visitsByPerson(reading: PlanReading): Map<string, Visit[]> {
  const visits = reading.runs.flatMap((run) => run.attendances.map((attended) => ({ run, attended })));
  visits.sort((a, b) => a.attended.start - b.attended.start || a.attended.end - b.attended.end);
  return groupBy(visits, (visit) => visit.attended.person);
}

/** The spot of a visit. */
export function spotOfVisit(reading: PlanReading, { run, attended }: Visit): string {
  return reading.walks.spotOf(run.machine, attended.role);
}

/**
 * Tells of each attendance how late it may begin so that it still fits the person's hours and nothing else in the plan
 * moves or ends later than its due time. Never before its planned start.
 */
export function latestBegins(reading: PlanReading): (visit: Visit) => Minute {
  const personNext = nextOfPerson(reading);
  const ableOf = new Map(reading.presences.map((p) => [p.person.id, p.able]));
  const stationsFull = stationsFullIn(reading);
  const nextOnPallet = nextIn(reading.onPallet, (run) => run.on);
  const nextOnMachine = nextIn(
    groupBy(
      [...reading.runs].sort((a, b) => a.busy.start - b.busy.start),
      (run) => run.machine.id,
    ),
    (run) => run.busy.start,
  );
  const dueOf = new Map(reading.shop.jobs.map((job) => [job.id, minuteOf(reading.plan.clock, job.due)]));
  const finishOf = new Map<string, Minute>();
  for (const { need, off } of reading.runs) finishOf.set(need.job.id, Math.max(finishOf.get(need.job.id) ?? off, off));

  function personEnd({ attended }: Visit): Minute {
    const able = intervalAt(ableOf.get(attended.person) ?? [], attended.start);
    return Math.min(able?.end ?? attended.end, personNext.get(attended) ?? NEVER);
  }

  function stationEnd({ run, attended }: Visit): Minute {
    if (attended.role !== 'load' && attended.role !== 'unload') return NEVER;
    return firstIn(stationsFull.get(storeOf(run.machine)) ?? [], attended.end);
  }

  function openEnd({ run, attended }: Visit): Minute {
    if (!isTable(run.machine) && !isBench(run.machine)) return NEVER;
    return intervalAt(reading.machines.get(run.machine.id)!.open, attended.start)?.end ?? attended.end;
  }

  /** By when the run must be off for whatever waits for its parts, its pallet, its place or its machine. */
  function offEnd({ run }: Visit): Minute {
    const alone = isTable(run.machine) || isBench(run.machine);
    const followers = neighbours(reading, run.need, 1).flatMap((need) => {
      const follower = reading.runOf.get(need.id);
      return follower === undefined ? [] : [follower.on - need.operation.lag];
    });
    return Math.min(
      ...followers,
      nextOnPallet.get(run) ?? NEVER,
      alone ? (nextOnMachine.get(run) ?? NEVER) : firstIn(reading.placesFull.get(storeOf(run.machine)) ?? [], run.off),
      Math.max(dueOf.get(run.need.job.id)!, finishOf.get(run.need.job.id)!),
    );
  }

  return (visit) => {
    const { role, start, end } = visit.attended;
    // The machine holds until the check is done.
    if (role === 'check') return start;
    const own = role === 'load' ? visit.run.planned.start : offEnd(visit);
    const last = Math.min(own, personEnd(visit), stationEnd(visit), openEnd(visit), reading.window.end);
    return Math.max(start, last - (end - start));
  };
}

/** By when each attendance must end for its person to be in time at the next one. */
function nextOfPerson(reading: PlanReading): Map<Attended, Minute> {
  const next = new Map<Attended, Minute>();
  for (const visits of visitsByPerson(reading).values()) {
    for (let i = 1; i < visits.length; i++) {
      const [before, after] = [visits[i - 1]!, visits[i]!];
      const walk = reading.walks.between(spotOfVisit(reading, before), spotOfVisit(reading, after));
      next.set(before.attended, after.attended.start - walk);
    }
  }
  return next;
}

/** When all load stations of a store are in use, by store. */
function stationsFullIn(reading: PlanReading) {
  const stations = new Map(reading.shop.cells.map((cell) => [`cell ${cell.id}`, cell.stations]));
  return new Map(
    [...reading.runsInStore].flatMap(([store, runs]) => {
      const machine = runs[0]!.machine;
      const places = placesOf(reading.shop, machine);
      const atStation = places !== null || machine.places === null;
      if (!atStation || isBench(machine)) return [];
      const uses = runs.flatMap((run) => run.attendances.filter((a) => a.role === 'load' || a.role === 'unload'));
      return [[store, fullTimes(uses, stations.get(store) ?? machine.stations)] as const];
    }),
  );
}

function nextIn(groups: ReadonlyMap<string, readonly RunSpans[]>, startOf: (run: RunSpans) => Minute) {
  const next = new Map<RunSpans, Minute>();
  for (const runs of groups.values()) {
    for (let i = 1; i < runs.length; i++) next.set(runs[i - 1]!, startOf(runs[i]!));
  }
  return next;
}
