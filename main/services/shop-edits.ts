import { parseRow, type RowOf, type Shop, type TableName } from '../../core/shop';
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
  return withTable(base, table, rows.with(place, row));
}

/** The shop without a row; what names it elsewhere stays, and is reported as a fault of the shop. */
export function withoutRow(shop: Shop, table: TableName, id: string): Shop {
  const rows: readonly RowOf<TableName>[] = shop[table];
  return withTable(shop, table, rows.toSpliced(placeOfRow(shop, table, id), 1));
}

function placeOfRow(shop: Shop, table: TableName, id: string): number {
  const place = shop[table].findIndex((row) => row.id === id);
  if (place < 0) throw refusal('no-such-row', `There is no ${id} in ${table} any more; read the table again.`);
  return place;
}

function withTable(shop: Shop, table: TableName, rows: readonly RowOf<TableName>[]): Shop {
  return { ...shop, [table]: rows };
}
