import type { Machine, ToolCare } from '../shop';
import { type Interval, type Minute, minuteOf } from '../time';
import { groupBy, type PlanReading, placesOf, storeOf } from './reading';
import { neighbours } from './route';
import { type Attended, isBench, isTable, type RunSpans } from './spans';
import { firstIn, fullTimes, intervalAt } from './sweep';

const NEVER = Number.POSITIVE_INFINITY;

/** One attendance: of a run, or to the tools of a machine. */
export type Visit = RunVisit | CareVisit;

export interface RunVisit {
  readonly run: RunSpans;
  readonly attended: Attended;
  readonly machine: Machine;
}

export interface CareVisit {
  readonly run: null;
  readonly care: ToolCare;
  readonly attended: Attended;
  readonly machine: Machine;
}

/** Every attendance of each person in order of start. */
export function visitsByPerson(reading: PlanReading): Map<string, Visit[]> {
  const visits = visitsIn(reading);
  visits.sort((a, b) => a.attended.start - b.attended.start || a.attended.end - b.attended.end);
  return groupBy(visits, (visit) => visit.attended.person);
}

/** Every attendance of the plan. */
export function visitsIn(reading: PlanReading): Visit[] {
  const forRuns = reading.runs.flatMap((run) =>
    run.attendances.map((attended): Visit => ({ run, attended, machine: run.machine })),
  );
  const forTools = [...reading.machines.values()].flatMap(({ machine, care }) =>
    care.map((one): Visit => ({ run: null, care: one, machine, attended: one })),
  );
  return [...forRuns, ...forTools];
}

/** The spot of a visit. */
export function spotOfVisit(reading: PlanReading, { machine, attended }: Visit): string {
  return reading.walks.spotOf(machine, attended.role);
}

/**
 * Tells of each attendance how late it may begin so that it fits the person's hours, no machine's time moves and nothing
 * ends later than its due time. What the same person does next may have to wait, within its own latest begin; nobody
 * else has to. Never before its planned start.
 */
export function latestBegins(reading: PlanReading): (visit: Visit) => Minute {
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

  function hoursEnd({ attended }: Visit): Minute {
    return intervalAt(ableOf.get(attended.person) ?? [], attended.start)?.end ?? attended.end;
  }

  function stationEnd({ machine, attended }: Visit): Minute {
    if (attended.role !== 'load' && attended.role !== 'unload') return NEVER;
    return firstIn(stationsFull(storeOf(machine), attended.person), attended.end);
  }

  function openEnd({ machine, attended }: Visit): Minute {
    const stops = isTable(machine) || isBench(machine) || attended.role === 'care';
    if (!stops) return NEVER;
    return intervalAt(reading.machines.get(machine.id)!.open, attended.start)?.end ?? attended.end;
  }

  /** By when the run must be off for whatever waits for its parts, its pallet, its place or its machine. */
  function offEnd(run: RunSpans): Minute {
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

  /** When the machine is to do something again. */
  function busyFrom({ machine, attended }: Visit): Minute {
    const { runs, care } = reading.machines.get(machine.id)!;
    const starts = [...runs.map((run) => run.busy.start), ...care.map((one) => one.start)];
    return starts.reduce((next, start) => (start >= attended.end && start < next ? start : next), NEVER);
  }

  function latestOf(visit: Visit, nextBy: Minute): Minute {
    const { role, start, end } = visit.attended;
    // The machine holds until the check is done.
    if (role === 'check') return start;
    const own = visit.run === null ? busyFrom(visit) : role === 'load' ? visit.run.planned.start : offEnd(visit.run);
    const last = Math.min(own, nextBy, hoursEnd(visit), stationEnd(visit), openEnd(visit), reading.window.end);
    return Math.max(start, last - (end - start));
  }

  const latest = new Map<Attended, Minute>();
  for (const visits of visitsByPerson(reading).values()) {
    let nextBy = NEVER;
    for (let i = visits.length - 1; i >= 0; i--) {
      const visit = visits[i]!;
      const begin = latestOf(visit, nextBy);
      latest.set(visit.attended, begin);
      const before = visits[i - 1];
      if (before !== undefined) {
        nextBy = begin - reading.walks.between(spotOfVisit(reading, before), spotOfVisit(reading, visit));
      }
    }
  }
  return ({ attended }) => latest.get(attended)!;
}

/** When others than a person use all load stations of a store: what that person does there next can wait for them. */
function stationsFullIn(reading: PlanReading): (store: string, person: string) => readonly Interval[] {
  const stations = new Map(reading.shop.cells.map((cell) => [`cell ${cell.id}`, cell.stations]));
  const known = new Map<string, readonly Interval[]>();
  return (store, person) => {
    const key = `${store}/${person}`;
    const found = known.get(key);
    if (found !== undefined) return found;
    const runs = reading.runsInStore.get(store) ?? [];
    const machine = runs[0]!.machine;
    const atStation = (placesOf(reading.shop, machine) !== null || machine.places === null) && !isBench(machine);
    const uses = runs.flatMap((run) =>
      run.attendances.filter((a) => (a.role === 'load' || a.role === 'unload') && a.person !== person),
    );
    const full = atStation ? fullTimes(uses, stations.get(store) ?? machine.stations) : [];
    known.set(key, full);
    return full;
  };
}

function nextIn(groups: ReadonlyMap<string, readonly RunSpans[]>, startOf: (run: RunSpans) => Minute) {
  const next = new Map<RunSpans, Minute>();
  for (const runs of groups.values()) {
    for (let i = 1; i < runs.length; i++) next.set(runs[i - 1]!, startOf(runs[i]!));
  }
  return next;
}
