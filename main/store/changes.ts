import { deflateSync, inflateSync } from 'node:zlib';
import type { Knex } from 'knex';
import type { LoggedChange, WayBack } from '../../core/contract';
import { refusal } from '../refusal';
import { type Difference, differencesOf, joined, readState, writeSide } from './desk-state';

/** Changes kept; a week of a busy desk. */
const KEPT = 300;

interface ChangeRow {
  readonly id: number;
  readonly made: string;
  readonly say: string;
  readonly undone: number;
  readonly body: Buffer;
}

/**
 * Does `work` and keeps the way back. `joins`: the number of the change it belongs to; if that is the last one, both are
 * undone together. Returns what `work` returns, and the number of the change, null if nothing changed.
 */
export async function logged<T>(
  db: Knex,
  { say, made, joins }: { readonly say: string; readonly made: string; readonly joins?: number | null },
  work: () => Promise<T>,
): Promise<{ value: T; change: number | null }> {
  const before = await readState(db);
  const value = await work();
  const differences = differencesOf(before, await readState(db));
  if (differences.length === 0) return { value, change: null };
  // What was undone and then left behind by another change can't be made again: it would be built on something else.
  await db('changes').where({ undone: true }).delete();
  const last = await lastOf(db, false);
  if (joins != null && last?.id === joins) {
    await db('changes')
      .where({ id: joins })
      .update({ body: packed(joined(unpacked(last), differences)) });
    return { value, change: joins };
  }
  const row = { made, say, undone: false, body: packed(differences) };
  const [added] = await db('changes').insert(row).returning<{ id: number }[]>('id');
  const change = added?.id ?? 0;
  const oldest = await db('changes').orderBy('id', 'desc').offset(KEPT).first<ChangeRow | undefined>('id');
  if (oldest !== undefined) await db('changes').where('id', '<=', oldest.id).delete();
  return { value, change };
}

/** Takes the last change back, or makes the last one taken back again; a Refusal if there is none. */
export async function step(db: Knex, direction: 'undo' | 'redo'): Promise<void> {
  const row = direction === 'undo' ? await lastOf(db, false) : await lastOf(db, true);
  if (row === undefined) {
    const say = direction === 'undo' ? 'There is nothing left to undo.' : 'There is nothing to do again.';
    throw refusal(`nothing-to-${direction}`, say);
  }
  await writeSide(db, unpacked(row), direction === 'undo' ? 'before' : 'after');
  await db('changes')
    .where({ id: row.id })
    .update({ undone: direction === 'undo' });
}

export async function wayBack(db: Knex): Promise<WayBack> {
  const [undo, redo] = [await lastOf(db, false), await lastOf(db, true)];
  return { undo: undo?.say ?? null, redo: redo?.say ?? null };
}

/** Newest first. */
export async function listChanges(db: Knex): Promise<LoggedChange[]> {
  const rows = await db('changes').select<ChangeRow[]>('id', 'made', 'say', 'undone').orderBy('id', 'desc');
  return rows.map(({ id, made, say, undone }) => ({ id, made, say, undone: Boolean(undone) }));
}

/** The change that is next to be undone, or next to be made again. */
function lastOf(db: Knex, undone: boolean): Promise<ChangeRow | undefined> {
  return db('changes')
    .where({ undone })
    .orderBy('id', undone ? 'asc' : 'desc')
    .first<ChangeRow | undefined>();
}

/** Compressed, because taking out a first row moves all others up by one. */
function packed(differences: readonly Difference[]): Buffer {
  return deflateSync(JSON.stringify(differences));
}

function unpacked({ body }: ChangeRow): Difference[] {
  return JSON.parse(inflateSync(body).toString('utf8')) as Difference[];
}
