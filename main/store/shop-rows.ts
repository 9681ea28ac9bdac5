import type { Knex } from 'knex';
import { type Shop, shopSchema, type TableName, tableSchemas } from '../../core/shop';
import { damagedRow, readJson, wrongIn } from './bodies';

/** The shop's lists, each kept one entry a row. */
const KINDS = [...(Object.keys(tableSchemas) as TableName[]), 'floor'] as const;

interface RecordRow {
  readonly kind: string;
  readonly position: number;
  readonly id: string;
  readonly body: string;
}

export interface StoredShop {
  readonly shop: Shop;
  readonly revision: number;
}

/** The stored shop, or null if none has been stored yet. */
export async function readShop(db: Knex, backups: string): Promise<StoredShop | null> {
  const head = await db('shop').first<{ revision: number; settings: string } | undefined>();
  if (head === undefined) return null;
  const rows = await db('records').select<RecordRow[]>().orderBy(['kind', 'position']);
  const rowsOfKind = (kind: string) => rows.filter((row) => row.kind === kind);
  const lists = KINDS.map((kind) => [kind, rowsOfKind(kind).map((row) => readJson(row.body, nameOf(row), backups))]);
  const settings = readJson(head.settings, 'the settings row', backups);
  const parsed = shopSchema.safeParse({ ...(settings as object), ...Object.fromEntries(lists) });
  if (parsed.success) return { shop: parsed.data, revision: head.revision };
  const issue = parsed.error.issues[0];
  const [kind, position] = issue?.path ?? [];
  const row = rowsOfKind(String(kind))[Number(position)];
  throw damagedRow(row === undefined ? 'the settings row' : nameOf(row), wrongIn(parsed.error), backups);
}

function nameOf(row: RecordRow): string {
  return `${row.id} in the table ${row.kind}`;
}

/** Writes the shop and the next revision number; rows that are as they were are left alone. Returns the revision. */
export async function writeShop(db: Knex, shop: Shop): Promise<number> {
  const present = new Map<string, RecordRow>();
  for (const row of await db('records').select<RecordRow[]>()) present.set(placeKey(row), row);
  for (const row of rowsOf(shop)) {
    const before = present.get(placeKey(row));
    present.delete(placeKey(row));
    if (before?.body === row.body && before.id === row.id) continue;
    await db('records').insert(row).onConflict(['kind', 'position']).merge();
  }
  for (const gone of present.values()) await db('records').where({ kind: gone.kind, position: gone.position }).delete();
  const head = await db('shop').first<{ revision: number } | undefined>();
  const revision = (head?.revision ?? 0) + 1;
  const settings = JSON.stringify(settingsOf(shop));
  await db('shop').insert({ one: 1, revision, settings }).onConflict('one').merge();
  return revision;
}

function rowsOf(shop: Shop): RecordRow[] {
  return KINDS.flatMap((kind) =>
    shop[kind].map((entry, position) => ({
      kind,
      position,
      id: 'id' in entry ? entry.id : entry.run,
      body: JSON.stringify(entry),
    })),
  );
}

/** The shop without its lists. */
function settingsOf(shop: Shop): unknown {
  return Object.fromEntries(Object.entries(shop).filter(([key]) => !(KINDS as readonly string[]).includes(key)));
}

function placeKey(row: RecordRow): string {
  return `${row.kind}/${row.position}`;
}
