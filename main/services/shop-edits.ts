import type { RowPut } from '../../core/contract';
import { type Fault, type Job, parseRow, type RowOf, runsOf, type Shop, type TableName } from '../../core/shop';
import { Refusal, refusal } from '../refusal';
import { renamed } from './rename';

/** The shop with a row put in: in the place of the row `replaces`, or as a new last one. */
export function withRow(shop: Shop, table: TableName, replaces: string | null, row: unknown): Shop {
  const put = puttingInto(shop, table);
  const faults = put.row({ replaces, row });
  if (faults.length > 0) throw new Refusal(faults);
  return put.shop();
}

/** The shop with all these rows put in, one after the other; faults of any begin with its index, and none is put in. */
export function withRows(shop: Shop, table: TableName, rows: readonly RowPut[]): Shop {
  const put = puttingInto(shop, table);
  const faults = rows.flatMap((row, index) => put.row(row).map((fault) => ({ ...fault, at: [index, ...fault.at] })));
  if (faults.length > 0) throw new Refusal(faults);
  return put.shop();
}

/** Puts rows into a table; what follows from them for the rest of the shop is done once, at the end. */
function puttingInto(shop: Shop, table: TableName): { row(put: RowPut): readonly Fault[]; shop(): Shop } {
  const rows: RowOf<TableName>[] = [...shop[table]];
  const places = new Map(rows.map((row, place) => [row.id, place]));
  const renames: (readonly [from: string, to: string])[] = [];
  const changed = new Set<number>();

  return {
    row({ replaces, row: input }) {
      const parsed = parseRow(table, input);
      if (!parsed.ok) return parsed.faults;
      const row = parsed.value;
      if (row.id !== replaces && places.has(row.id)) {
        const say = `There is already ${row.id} in ${table}; give this one another short name.`;
        return [{ code: 'duplicate-id', at: ['id'], say, level: 'error' }];
      }
      const place = replaces === null ? rows.length : places.get(replaces);
      if (place === undefined) return noSuchRow(table, replaces ?? '').faults;
      rows[place] = row;
      if (replaces !== null) {
        if (place < shop[table].length) changed.add(place);
        places.delete(replaces);
        if (row.id !== replaces) renames.push([replaces, row.id]);
      }
      places.set(row.id, place);
      return [];
    },
    shop() {
      const base = renames.reduce((now, [from, to]) => renamed(now, table, from, to), shop);
      const edited = withTable(base, table, rows);
      return table === 'jobs' ? withFloorOf(edited, shop, [...changed]) : edited;
    },
  };
}

/**
 * The shop without a row; what names it elsewhere stays, and is reported as a fault of the shop. Only what the floor says
 * of a job's runs goes with the job: nothing else could mend it.
 */
export function withoutRow(shop: Shop, table: TableName, id: string): Shop {
  const rows: readonly RowOf<TableName>[] = shop[table];
  const place = rows.findIndex((row) => row.id === id);
  if (place < 0) throw noSuchRow(table, id);
  const left = withTable(shop, table, rows.toSpliced(place, 1));
  return table === 'jobs' ? withoutLostRuns(left, shop) : left;
}

/**
 * The floor follows operations that were given another name in place, and forgets runs that are no more. `changed` are
 * the places of jobs that `old` had already.
 */
function withFloorOf(shop: Shop, old: Shop, changed: readonly number[]): Shop {
  if (changed.length === 0) return shop;
  const names = new Map(changed.map((at) => [shop.jobs[at]!.id, newNames(old.jobs[at]!, shop.jobs[at]!)]));
  const renamedRun = (run: string): string => {
    const [job = '', operation = '', number = ''] = run.split('/');
    const name = names.get(job)?.get(operation);
    return name === undefined ? run : `${job}/${name}/${number}`;
  };
  const floor = shop.floor.map((entry) => ({
    ...entry,
    run: renamedRun(entry.run),
    after: entry.after === null ? null : renamedRun(entry.after),
  }));
  return withoutLostRuns({ ...shop, floor }, old);
}

/** What operations that are gone are called now, if the route is as long as it was. */
function newNames(before: Job, after: Job): ReadonlyMap<string, string> {
  if (before.route.length !== after.route.length) return new Map();
  return new Map(
    before.route.flatMap(({ id }, i) => {
      const isGone = after.route.every((operation) => operation.id !== id);
      return isGone ? [[id, after.route[i]!.id] as const] : [];
    }),
  );
}

/** Drops what the floor says of runs that `old` had and the shop has no more, and locks that hold nothing but an order to one. */
function withoutLostRuns(shop: Shop, old: Shop): Shop {
  const [known, wasKnown] = [shop, old].map((each) => new Set(runsOf(each).map((run) => run.id)));
  const isLost = (run: string): boolean => wasKnown!.has(run) && !known!.has(run);
  const floor = shop.floor.flatMap((entry) => {
    if (isLost(entry.run)) return [];
    if (entry.after === null || !isLost(entry.after)) return [entry];
    const holdsMore = entry.machine !== null || entry.pallet !== null || entry.start !== null;
    return holdsMore ? [{ ...entry, after: null }] : [];
  });
  return { ...shop, floor };
}

function noSuchRow(table: TableName, id: string): Refusal {
  return refusal('no-such-row', `There is no ${id} in ${table} any more; read the table again.`);
}

function withTable(shop: Shop, table: TableName, rows: readonly RowOf<TableName>[]): Shop {
  return { ...shop, [table]: rows };
}

/** The id of a row not looked at yet, for words; empty where it has none. */
export function idOfRow(row: unknown): string {
  return typeof row === 'object' && row !== null && 'id' in row ? String(row.id) : '';
}
