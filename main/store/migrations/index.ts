import type { Knex } from 'knex';
import * as m0001 from './0001-shop-plans-seat';
import * as m0002 from './0002-released-plans';
import * as m0003 from './0003-history';

interface Migration {
  readonly name: string;
  readonly up: (db: Knex) => Promise<void>;
}

/** In order, never changed once released: number n brings the file to version n. */
const MIGRATIONS: readonly Migration[] = [
  { name: '0001-shop-plans-seat', up: m0001.up },
  { name: '0002-released-plans', up: m0002.up },
  { name: '0003-history', up: m0003.up },
];

/** The version of a shop's file that this program writes. */
export const STORE_VERSION = MIGRATIONS.length;

/** The migrations as modules: a bundle has no folder to read them from. */
export const migrationSource: Knex.MigrationSource<Migration> = {
  getMigrations: () => Promise.resolve([...MIGRATIONS]),
  getMigrationName: (migration) => migration.name,
  getMigration: (migration) =>
    Promise.resolve({
      up: async (db: Knex) => {
        await migration.up(db);
        // In the same transaction, so that the file never claims a version it has not reached.
        await db.raw(`PRAGMA user_version = ${MIGRATIONS.indexOf(migration) + 1}`);
      },
      down: () => Promise.reject(new Error('the way back is a backup')),
    }),
};
