import type { LateJob, PlanView } from '../../core/contract';
import { type FloorEntry, type Machine, type Person, type PlannedRun, type RunNeed, runsOf } from '../../core/shop';
import type { Clock, Minute } from '../../core/time';

/** A plan with everything its runs name looked up once. */
export interface PlanIndex {
  readonly view: PlanView;
  readonly clock: Clock;
  readonly runs: ReadonlyMap<string, PlannedRun>;
  readonly needs: ReadonlyMap<string, RunNeed>;
  readonly machines: ReadonlyMap<string, Machine>;
  readonly people: ReadonlyMap<string, Person>;
  readonly late: ReadonlyMap<string, LateJob>;
  /** When the last planned run of each job is off. */
  readonly finish: ReadonlyMap<string, Minute>;
  /** What stands on the floor or is locked, by run. */
  readonly floor: ReadonlyMap<string, FloorEntry>;
  /** Why a run cannot be where it is held, by run. */
  readonly clashes: ReadonlyMap<string, string>;
}

export function indexPlan(view: PlanView): PlanIndex {
  const needs = new Map(runsOf(view.shop).map((need) => [need.id, need]));
  const finish = new Map<string, Minute>();
  for (const run of view.plan.runs) {
    const job = jobOf(run.run);
    finish.set(job, Math.max(finish.get(job) ?? Number.NEGATIVE_INFINITY, offOf(run)));
  }
  return {
    view,
    clock: view.plan.clock,
    runs: new Map(view.plan.runs.map((run) => [run.run, run])),
    needs,
    machines: new Map(view.shop.machines.map((machine) => [machine.id, machine])),
    people: new Map(view.shop.people.map((person) => [person.id, person])),
    late: new Map(view.report.late.map((late) => [late.job, late])),
    finish,
    floor: new Map(view.shop.floor.map((entry) => [entry.run, entry])),
    clashes: new Map(view.plan.conflicts.map(({ run, say }) => [run, say])),
  };
}

/** The job of `job/operation/number`. */
export function jobOf(run: string): string {
  return run.slice(0, run.indexOf('/'));
}

/** The minute in which a run takes its pallet and place. */
export function onOf(run: PlannedRun): Minute {
  return run.load?.start ?? run.start;
}

/** The minute in which a run gives its pallet and place back. */
export function offOf(run: PlannedRun): Minute {
  return run.unload?.end ?? run.end;
}

/** When the machine stops for the first-piece check, or null where there is none. */
export function holdOf(index: PlanIndex, run: PlannedRun): { start: Minute; end: Minute } | null {
  const after = index.needs.get(run.run)?.operation.firstPiece?.after;
  if (run.check === null || after === undefined) return null;
  return { start: Math.min(run.start + after, run.check.start), end: run.check.end };
}

export function personName(index: PlanIndex, person: string): string {
  return index.people.get(person)?.name || person;
}

/** `M1 Horizontal mill`, or the id alone where it has no other name. */
export function machineName(index: PlanIndex, machine: string): string {
  const name = index.machines.get(machine)?.name;
  return name === undefined || name === '' || name === machine ? machine : `${machine} ${name}`;
}

/** Things by what `keyOf` says of each, in the order in which they come. */
export function grouped<T>(things: readonly T[], keyOf: (thing: T) => string): ReadonlyMap<string, readonly T[]> {
  const groups = new Map<string, T[]>();
  for (const thing of things) {
    const group = groups.get(keyOf(thing));
    if (group === undefined) groups.set(keyOf(thing), [thing]);
    else group.push(thing);
  }
  return groups;
}
