import {
  type Cell,
  type FloorEntry,
  type Machine,
  type Pallet,
  type Person,
  type Plan,
  type RunNeed,
  runsOf,
  type Shop,
} from '../shop';
import { addDays, type Clock, type Interval, localAt, type Minute, minuteOf } from '../time';
import { type Stay, stayOf } from './stay';
import { EARLIEST, LATEST } from './words';

/** Shop and plan, indexed for all rules. */
export interface Context {
  readonly shop: Shop;
  readonly plan: Plan;
  /** The plan's origin in the shop's zone, brought into the calendar if it lies outside. */
  readonly clock: Clock;
  readonly now: Minute;
  /** The shop's, whatever the plan claims. */
  readonly horizon: Minute;
  /** From `now` to the horizon: what lies before has happened, what lies after is not planned. */
  readonly ahead: Interval;
  /** `ahead` and enough of the time before to know how long the stretch is in which `now` lies. */
  readonly window: Interval;
  readonly machines: ReadonlyMap<string, Machine>;
  readonly cells: ReadonlyMap<string, Cell>;
  readonly people: ReadonlyMap<string, Person>;
  readonly pallets: ReadonlyMap<string, Pallet>;
  readonly needs: ReadonlyMap<string, RunNeed>;
  readonly floor: ReadonlyMap<string, FloorEntry>;
  readonly left: ReadonlySet<string>;
  /** The planned runs that the jobs call for, as often as the plan names them. */
  readonly stays: readonly Stay[];
  readonly stayOf: ReadonlyMap<string, Stay>;
}

export function contextOf(shop: Shop, plan: Plan): Context {
  const clock = { zone: shop.zone, origin: Math.min(Math.max(plan.clock.origin, EARLIEST), LATEST) };
  const horizon = minuteOf(clock, `${addDays(localAt(clock, 0).slice(0, 10), shop.horizonDays)}T00:00`);
  const machines = byId(shop.machines);
  const needs = byId(runsOf(shop));
  const floor = firstBy(shop.floor, (entry) => entry.run);
  const stays = plan.runs.flatMap((planned) => {
    const need = needs.get(planned.run);
    if (need === undefined) return [];
    return stayOf(planned, need, floor.get(planned.run), machines.get(planned.machine), plan.now);
  });
  return {
    shop,
    plan,
    clock,
    now: plan.now,
    horizon,
    ahead: { start: plan.now, end: horizon },
    window: { start: -1440, end: horizon },
    machines,
    cells: byId(shop.cells),
    people: byId(shop.people),
    pallets: byId(shop.pallets),
    needs,
    floor,
    left: new Set(plan.left.map((left) => left.run)),
    stays,
    stayOf: firstBy(stays, (stay) => stay.planned.run),
  };
}

function byId<T extends { readonly id: string }>(rows: readonly T[]): Map<string, T> {
  return firstBy(rows, (row) => row.id);
}

function firstBy<T>(rows: readonly T[], keyOf: (row: T) => string): Map<string, T> {
  const index = new Map<string, T>();
  for (const row of rows) if (!index.has(keyOf(row))) index.set(keyOf(row), row);
  return index;
}

/** When a run that is done was taken off: as the floor says, else now. */
export function doneAt(ctx: Context, entry: FloorEntry): Minute {
  return entry.end === null ? ctx.now : minuteOf(ctx.clock, entry.end);
}
