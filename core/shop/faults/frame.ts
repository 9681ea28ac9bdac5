import { addDays, type Clock, clockOn, expandHours, type Interval, type Minute, minuteOf, subtract } from '../../time';
import type { Fault } from '../fault';
import { type Path, placeOf } from '../place';
import { type RunNeed, runsOf } from '../runs';
import type { Machine, Person, Shop } from '../schema';

/** What every check looks at: the shop at one moment, and the open time that follows from it. */
export interface Frame {
  readonly shop: Shop;
  readonly clock: Clock;
  readonly now: Minute;
  /** From now to the horizon. */
  readonly ahead: Interval;
  readonly machines: ReadonlyMap<string, Machine>;
  /** By id. Empty if the shop calls for more runs than can be planned. */
  readonly runs: ReadonlyMap<string, RunNeed>;
  /** When the machine may run. */
  readonly open: (machine: Machine) => readonly Interval[];
  /** When the person may attend to something. */
  readonly free: (person: Person) => readonly Interval[];
}

/** More than any shop plans at once; a slip in a quantity or in the parts per pallet would exhaust memory. */
export const MOST_RUNS = 20_000;

export function countRuns(shop: Shop): number {
  const perJob = (job: Shop['jobs'][number]): number =>
    job.route.reduce((sum, operation) => sum + Math.ceil(job.quantity / operation.perPallet), 0);
  return shop.jobs.reduce((sum, job) => sum + perJob(job), 0);
}

export function frameOf(shop: Shop, at: string): Frame {
  const clock = clockOn(shop.zone, at);
  const now = minuteOf(clock, at);
  const ahead = { start: now, end: minuteOf(clock, `${addDays(at.slice(0, 10), shop.horizonDays)}T00:00`) };
  return {
    shop,
    clock,
    now,
    ahead,
    machines: new Map(shop.machines.map((m) => [m.id, m])),
    runs: new Map(countRuns(shop) > MOST_RUNS ? [] : runsOf(shop).map((run) => [run.id, run])),
    open: remembered((machine) => {
      const closures = machine.closures.map((c) => ({ start: minuteOf(clock, c.from), end: minuteOf(clock, c.to) }));
      const hours = machine.hours.length === 0 ? [ahead] : expandHours(clock, ahead, machine.hours);
      return subtract(hours, closures);
    }),
    free: remembered((person) =>
      subtract(
        expandHours(clock, ahead, person.hours, person.exceptions),
        expandHours(clock, ahead, person.breaks.map(daily)),
      ),
    ),
  };
}

/** A span that holds every day, as weekly spans are written. */
export function daily<T extends { from: string; to: string }>(span: T) {
  return { ...span, days: ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] as const };
}

function remembered<K extends object, V>(work: (key: K) => V): (key: K) => V {
  const known = new Map<K, V>();
  return (key) => {
    const value = known.get(key) ?? work(key);
    known.set(key, value);
    return value;
  };
}

/** The longest of them, 0 if there is none. */
export function longest(intervals: readonly Interval[]): number {
  return intervals.reduce((most, i) => Math.max(most, i.end - i.start), 0);
}

/** A fault whose sentence begins with its place. */
export function fault(frame: Frame, level: Fault['level'], code: string, at: Path, say: string): Fault {
  return { code, at, say: `${placeOf(frame.shop, at)}: ${say}`, level };
}

/** `M1`, `M1 and M2`, `M1, M2 and M3`. */
export function listed(names: readonly string[], word = 'and'): string {
  const last = names.at(-1) ?? '';
  return names.length < 2 ? last : `${names.slice(0, -1).join(', ')} ${word} ${last}`;
}
