import { type Clock, type Interval, intersect, union } from '../../core/time';
import { offOf, onOf, type PlanIndex, personName } from './plan-index';
import { type Ghost, withGhosts } from './rows/ghosts';
import { jobRows } from './rows/job-rows';
import { machineRows } from './rows/machine-rows';
import { palletRows } from './rows/pallet-rows';
import { peopleRows, slimPeopleRows } from './rows/people-rows';
import type { Item, Row } from './rows/row';
import type { Selection } from './selection';
import { type Track, trackOf } from './track';

/** What the timeline draws, still in minutes: worked out once per plan, not per frame. */
export interface TimelineModel {
  readonly clock: Clock;
  readonly rows: readonly Row[];
  /** Where each thing that can be picked stands, by {@link keyOf}; of several the first. */
  readonly places: ReadonlyMap<string, Place>;
  readonly presence: Track<PresenceBand>;
  /** The furthest one can pan. */
  readonly limits: Interval;
  /** From the plan's moment until the last run is off or tonight is over. */
  readonly busy: Interval;
  readonly tonight: Interval | null;
}

/** What there is a row for. */
export type RowsBy = 'machines' | 'pallets' | 'people' | 'jobs';

/** An item by its row and its place in the row's track. */
export interface Place {
  readonly row: number;
  readonly at: number;
}

/** Who is in the shop; nobody means unattended. */
interface PresenceBand extends Interval {
  readonly people: readonly string[];
}

/** Kept before the plan's moment, so that "now" does not stick to the edge. */
const LEAD_IN_MIN = 120;

export function modelOf(index: PlanIndex, by: RowsBy = 'machines', ghosts: readonly Ghost[] = []): TimelineModel {
  const { plan, report } = index.view;
  const start = least(plan.now, plan.runs.map(onOf)) - LEAD_IN_MIN;
  const end =
    -least(
      -Math.max(plan.now + 60, report.tonight?.end ?? plan.now),
      plan.runs.map((run) => -offOf(run)),
    ) + 60;
  const base = {
    clock: plan.clock,
    presence: trackOf(presenceOf(index)),
    limits: { start, end: plan.horizon },
    busy: { start: plan.now, end: Math.min(end, plan.horizon) },
    tonight: report.tonight,
  };
  return withRows(base, rowsBy(index, by, ghosts));
}

function rowsBy(index: PlanIndex, by: RowsBy, ghosts: readonly Ghost[]): Row[] {
  if (by === 'pallets') return palletRows(index);
  if (by === 'people') return peopleRows(index);
  if (by === 'jobs') return jobRows(index);
  return [...withGhosts(index, machineRows(index), ghosts), ...slimPeopleRows(index)];
}

/** The model with other rows. */
export function withRows(model: Omit<TimelineModel, 'rows' | 'places'>, rows: readonly Row[]): TimelineModel {
  return { ...model, rows, places: placesOf(rows) };
}

function least(first: number, others: readonly number[]): number {
  return others.reduce((found, other) => Math.min(found, other), first);
}

function placesOf(rows: readonly Row[]): Map<string, Place> {
  const places = new Map<string, Place>();
  for (const [row, { items }] of rows.entries()) {
    for (const [at, item] of items.all.entries()) {
      const key = keyOf(selectionOf(item));
      if (!places.has(key)) places.set(key, { row, at });
    }
  }
  return places;
}

function presenceOf(index: PlanIndex): PresenceBand[] {
  const { report } = index.view;
  return report.stretches.flatMap((stretch) => {
    if (!stretch.attended) return [{ start: stretch.start, end: stretch.end, people: [] }];
    const inside = report.people.map((person) => ({
      name: personName(index, person.person),
      present: intersect(person.present, [stretch]),
    }));
    const cuts = [...new Set(inside.flatMap((p) => p.present.flatMap((i) => [i.start, i.end])))].sort((a, b) => a - b);
    return cuts.slice(1).map((end, i) => {
      const start = cuts[i] ?? stretch.start;
      const there = inside.filter((p) => p.present.some((i) => i.start <= start && i.end >= end));
      return { start, end, people: there.map((p) => p.name) };
    });
  });
}

/** The item at a place, or null if there is none. */
export function itemAt(model: TimelineModel, place: Place): Item | null {
  return model.rows[place.row]?.items.all[place.at] ?? null;
}

/** Where what a selection means stands, or null if no row holds it. */
export function placeOf(model: TimelineModel, selection: Selection): Place | null {
  return model.places.get(keyOf(selection)) ?? null;
}

/** The item a selection means; null if no row holds it. */
export function findItem(model: TimelineModel, selection: Selection): Item | null {
  const place = placeOf(model, selection);
  return place === null ? null : itemAt(model, place);
}

function keyOf(selection: Selection): string {
  return selection.kind === 'run'
    ? `run ${selection.run}`
    : `${selection.kind} ${selection.start} ${selection.machine}`;
}

/** The selection an item stands for. */
export function selectionOf(item: Item): Selection {
  if (item.kind === 'run') return { kind: 'run', run: item.run };
  return item.kind === 'hand' ? item.selection : { kind: item.kind, machine: item.machine, start: item.start };
}

/** The time an item takes with everything drawn for it: a run from its loading to its unloading on the table. */
export function extentOf(item: Item): Interval {
  if (item.kind !== 'run') return item;
  const [whole] = union([{ start: item.start, end: item.end }, ...item.table]);
  return whole ?? item;
}
