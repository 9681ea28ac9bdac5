import { itemAt, type Place, type TimelineModel } from './model';
import type { Item } from './rows/row';
import { firstAbove } from './track';

export type Step = 'left' | 'right' | 'up' | 'down' | 'first' | 'last';

/**
 * Where an arrow key leads. Left and right follow one row through time over its runs and the gaps that have a reason to
 * be read; up and down go to what another row does at the same time. Null: nowhere, stay.
 */
export function walk(model: TimelineModel, from: Place | null, step: Step, startMin: number): Place | null {
  const item = from === null ? null : itemAt(model, from);
  if (from === null || item === null) return firstFrom(model, startMin);
  if (step === 'up' || step === 'down') return across(model, from.row, item, step === 'up' ? -1 : 1);
  const items = itemsOf(model, from.row);
  if (step === 'first') return nextStop(items, from.row, 0, 1);
  if (step === 'last') return nextStop(items, from.row, items.length - 1, -1);
  return step === 'left' ? nextStop(items, from.row, from.at - 1, -1) : nextStop(items, from.row, from.at + 1, 1);
}

function itemsOf(model: TimelineModel, row: number): readonly Item[] {
  return model.rows[row]?.items.all ?? [];
}

/** The first item from a place on that is worth a stop: blank time is not. */
function nextStop(items: readonly Item[], row: number, from: number, by: 1 | -1): Place | null {
  for (let at = from; at >= 0 && at < items.length; at += by) if (isStop(items[at]!)) return { row, at };
  return null;
}

function isStop(item: Item): boolean {
  return item.kind !== 'gap' || item.reason !== 'nothing-due';
}

function firstFrom(model: TimelineModel, startMin: number): Place | null {
  for (const [row, { items }] of model.rows.entries()) {
    const from = firstAbove(items.reach, startMin);
    const stop = nextStop(items.all, row, from, 1) ?? nextStop(items.all, row, items.all.length - 1, -1);
    if (stop !== null) return stop;
  }
  return null;
}

function across(model: TimelineModel, row: number, item: Item, by: 1 | -1): Place | null {
  for (let next = row + by; next >= 0 && next < model.rows.length; next += by) {
    let [best, least] = [-1, Number.POSITIVE_INFINITY];
    for (const [at, other] of itemsOf(model, next).entries()) {
      if (isStop(other) && apart(other, item) < least) [best, least] = [at, apart(other, item)];
    }
    if (best >= 0) return { row: next, at: best };
  }
  return null;
}

/** Minutes between two items; what overlaps more is nearer than what overlaps less. */
function apart(a: Item, b: Item): number {
  return Math.max(a.start, b.start) - Math.min(a.end, b.end);
}
