import { findItem, type Item, selectionOf, type TimelineModel } from './model';
import type { Selection } from './selection';

export type Step = 'left' | 'right' | 'up' | 'down' | 'first' | 'last';

/**
 * Where an arrow key leads. Left and right follow one machine through time over its runs and the gaps that have a
 * reason to be read; up and down go to what another machine does at the same time. Null: nowhere, stay.
 */
export function walk(model: TimelineModel, from: Selection | null, step: Step, startMin: number): Selection | null {
  const at = from === null ? null : findItem(model, from);
  if (at === null) return firstFrom(model, startMin);
  if (step === 'up' || step === 'down') return across(model, at.row, at.item, step === 'up' ? -1 : 1);
  const stops = stopsOf(model, at.row);
  const place = stops.indexOf(at.item);
  const to = { left: place - 1, right: place + 1, first: 0, last: stops.length - 1 }[step];
  const item = stops[to];
  return item === undefined ? null : selectionOf(item);
}

/** Items worth a stop: blank time is not. */
function stopsOf(model: TimelineModel, row: number): Item[] {
  return (model.machines[row]?.items ?? []).filter((item) => item.kind !== 'gap' || item.reason !== 'nothing-due');
}

function firstFrom(model: TimelineModel, startMin: number): Selection | null {
  for (const row of model.machines.keys()) {
    const stops = stopsOf(model, row);
    const item = stops.find((stop) => stop.end > startMin) ?? stops.at(-1);
    if (item !== undefined) return selectionOf(item);
  }
  return null;
}

function across(model: TimelineModel, row: number, item: Item, by: 1 | -1): Selection | null {
  for (let next = row + by; next >= 0 && next < model.machines.length; next += by) {
    const nearest = stopsOf(model, next).sort((a, b) => apart(a, item) - apart(b, item))[0];
    if (nearest !== undefined) return selectionOf(nearest);
  }
  return null;
}

/** Minutes between two items; what overlaps more is nearer than what overlaps less. */
function apart(a: Item, b: Item): number {
  return Math.max(a.start, b.start) - Math.min(a.end, b.end);
}
