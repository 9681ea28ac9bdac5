import type { Interval } from '../time';
import type { IntervalRows, Rows } from './problem';

/** The place of each id in its table. */
export function indexOf(ids: readonly { readonly id: string }[]): Map<string, number> {
  return new Map(ids.map((row, index) => [row.id, index]));
}

/** Each distinct row once, so that options share rows and the engine can compare them by number. */
export class RowTable {
  private readonly rows: number[][] = [];
  private readonly known = new Map<string, number>();

  add(items: number[]): number {
    const key = items.join();
    const found = this.known.get(key);
    if (found !== undefined) return found;
    this.known.set(key, this.rows.length);
    this.rows.push(items);
    return this.rows.length - 1;
  }

  flat(): Rows {
    return flatRows(this.rows);
  }
}

export function flatRows(rows: readonly (readonly number[])[]): Rows {
  const start = new Int32Array(rows.length + 1);
  rows.forEach((row, i) => {
    start[i + 1] = start[i]! + row.length;
  });
  return { start, items: Int32Array.from(rows.flat()) };
}

export function flatIntervals(owners: readonly (readonly Interval[])[]): IntervalRows {
  const all = owners.flat();
  return {
    first: flatRows(owners.map((o) => o.map(() => 0))).start,
    start: Int32Array.from(all, (i) => i.start),
    end: Int32Array.from(all, (i) => i.end),
  };
}
