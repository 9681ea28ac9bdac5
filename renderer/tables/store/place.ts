import type { Fault, Shop, TableName } from '../../../core/shop';

export type Path = readonly (string | number)[];

/** A record that is edited field by field and sent as a whole: a row of a table, or the shop's settings. */
export type Place = { readonly table: TableName; readonly id: string } | { readonly table: 'settings' };

/** Names a field, a record or a part of one: `jobs/J-104/route/0/fixture`. Ids hold no `/`. */
export function keyOf(place: Place, path: Path = []): string {
  return (place.table === 'settings' ? ['settings', ...path] : [place.table, place.id, ...path]).join('/');
}

/** True if `key` names `whole` or something inside it. */
export function within(key: string, whole: string): boolean {
  return key === whole || key.startsWith(`${whole}/`);
}

const TABLES: readonly string[] = [
  'shifts',
  'people',
  'cells',
  'machines',
  'pallets',
  'tools',
  'jobs',
  'templates',
] satisfies TableName[];

function isTable(name: string | number | undefined): name is TableName {
  return typeof name === 'string' && TABLES.includes(name);
}

/** The key of what a fault is about: its index into a table turned into the row's id. */
export function keyOfFault(shop: Shop, fault: Fault): string {
  const [table, index, ...rest] = fault.at;
  if (!isTable(table)) return keyOf({ table: 'settings' }, fault.at);
  const row = typeof index === 'number' ? shop[table][index] : undefined;
  return row === undefined ? table : keyOf({ table, id: row.id }, rest);
}

/** A copy of `record` in which the value at `path` is `value`; every other field stays as it is. */
export function setIn(record: unknown, path: Path, value: unknown): unknown {
  const [step, ...rest] = path;
  if (step === undefined) return value;
  if (Array.isArray(record)) return record.map((item: unknown, i) => (i === step ? setIn(item, rest, value) : item));
  const fields = record as Readonly<Record<string, unknown>>;
  return { ...fields, [step]: setIn(fields[step], rest, value) };
}
