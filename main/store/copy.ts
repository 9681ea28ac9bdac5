import type { Knex } from 'knex';
import { type Shop, shopSchema } from '../../core/shop';
import { readBody } from './bodies';
import { openDatabase } from './open';

/** What a copy of the shop is a copy of. */
export interface Origin {
  readonly name: string;
  /** Local time. */
  readonly made: string;
  /** The shop as it was then. */
  readonly base: Shop;
}

interface OriginRow {
  readonly name: string;
  readonly made: string;
  readonly base: string;
}

/** Copies the file; the copy begins without a way back, for what lies before it is the shop's. */
export async function copyShop(db: Knex, to: string, { name, made, base }: Origin): Promise<void> {
  await db.raw('VACUUM INTO ?', [to]);
  const copy = await openDatabase(to);
  try {
    await copy.transaction(async (trx) => {
      await trx('changes').delete();
      await trx('origin').insert({ one: 1, name, made, base: JSON.stringify(base) });
    });
  } finally {
    await copy.destroy();
  }
}

export async function readOrigin(db: Knex, backups: string): Promise<Origin | null> {
  const row = await db('origin').first<OriginRow | undefined>();
  if (row === undefined) return null;
  return { name: row.name, made: row.made, base: readBody(row.base, shopSchema, 'the shop it is a copy of', backups) };
}
