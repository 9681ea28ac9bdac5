import { type Job, parseRow, type RowOf, runsOf, type Shop, type TableName } from '../../core/shop';
import { Refusal, refusal } from '../refusal';
import { renamed } from './rename';

/** The shop with a row put in: in the place of the row `replaces`, or as a new last one. */
export function withRow(shop: Shop, table: TableName, replaces: string | null, input: unknown): Shop {
  const parsed = parseRow(table, input);
  if (!parsed.ok) throw new Refusal(parsed.faults);
  const row = parsed.value;
  if (row.id !== replaces && shop[table].some((other) => other.id === row.id)) {
    throw new Refusal([
      {
        code: 'duplicate-id',
        at: ['id'],
        say: `There is already ${row.id} in ${table}; give this one another short name.`,
        level: 'error',
      },
    ]);
  }
  if (replaces === null) return withTable(shop, table, [...shop[table], row]);
  const place = placeOfRow(shop, table, replaces);
  const base = row.id === replaces ? shop : renamed(shop, table, replaces, row.id);
  const rows: readonly RowOf<TableName>[] = base[table];
  const edited = withTable(base, table, rows.with(place, row));
  return table === 'jobs' ? withFloorOf(edited, shop, shop.jobs[place], edited.jobs[place]) : edited;
}

/**
 * The shop without a row; what names it elsewhere stays, and is reported as a fault of the shop. Only what the floor says
 * of a job's runs goes with the job: nothing else could mend it.
 */
export function withoutRow(shop: Shop, table: TableName, id: string): Shop {
  const rows: readonly RowOf<TableName>[] = shop[table];
  const left = withTable(shop, table, rows.toSpliced(placeOfRow(shop, table, id), 1));
  return table === 'jobs' ? withoutLostRuns(left, shop) : left;
}

/** The floor follows operations that were given another name in place, and forgets runs that are no more. */
function withFloorOf(shop: Shop, old: Shop, before: Job | undefined, after: Job | undefined): Shop {
  if (before === undefined || after === undefined) return shop;
  const isSameLength = before.route.length === after.route.length;
  const names = new Map(
    before.route.flatMap(({ id }, i) => {
      const isGone = after.route.every((operation) => operation.id !== id);
      return isSameLength && isGone ? [[id, after.route[i]!.id] as const] : [];
    }),
  );
  const renamed = (run: string): string => {
    const [job = '', operation = '', number = ''] = run.split('/');
    return job === after.id ? `${job}/${names.get(operation) ?? operation}/${number}` : run;
  };
  const floor = shop.floor.map((entry) => ({
    ...entry,
    run: renamed(entry.run),
    after: entry.after === null ? null : renamed(entry.after),
  }));
  return withoutLostRuns({ ...shop, floor }, old);
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

function placeOfRow(shop: Shop, table: TableName, id: string): number {
  const place = shop[table].findIndex((row) => row.id === id);
  if (place < 0) throw refusal('no-such-row', `There is no ${id} in ${table} any more; read the table again.`);
  return place;
}

function withTable(shop: Shop, table: TableName, rows: readonly RowOf<TableName>[]): Shop {
  return { ...shop, [table]: rows };
}
