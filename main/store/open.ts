import { mkdir } from 'node:fs/promises';
import { dirname, join } from 'node:path';
import knex, { type Knex } from 'knex';
import { codeOf, messageOf, Refusal, refusal } from '../refusal';
import { migrationSource, STORE_VERSION } from './migrations';
import { APPLICATION_ID, isOurShop, newerThanThis } from './ours';

const BUSY_MS = 5_000;
const LOCK_TRIES = 10;
const LOCK_PAUSE_MS = 300;

/** Opens a shop's file, making it first where there is none; throws a Refusal, file untouched, if it is not ours. */
export async function openDatabase(file: string): Promise<Knex> {
  const exists = await isOurShop(file);
  try {
    await mkdir(dirname(file), { recursive: true });
  } catch (error) {
    throw refusal(
      'no-data-folder',
      `The folder ${dirname(file)} can't be made (${messageOf(error)}). Choose another with --data or NIGHTLOAD_DATA.`,
    );
  }
  const db = connect(file, !exists);
  try {
    await prove(db, file);
    await migrate(db);
    return db;
  } catch (error) {
    await db.destroy();
    throw error instanceof Refusal ? error : damaged(file, error);
  }
}

/** A sentence for what SQLite says of a file of ours that it can't work with. */
export function damaged(file: string, error: unknown): Refusal {
  const backups = join(dirname(file), 'backups');
  switch (codeOf(error)) {
    case 'SQLITE_BUSY':
      return refusal('busy', `${file} is held by another program. Close that program and try again.`);
    case 'SQLITE_FULL':
      return refusal(
        'disk-full',
        `The disk that holds ${file} is full. Make room; what was saved before is still there.`,
      );
    case 'SQLITE_READONLY':
    case 'SQLITE_CANTOPEN':
    case 'SQLITE_PERM':
      return refusal('unwritable', `${file} can't be written. Give this user the right to it and to its folder.`);
    default:
      return refusal(
        'damaged-database',
        `${file} is damaged (${messageOf(error)}). Nothing was changed in it: move it away, ` +
          `copy the newest file from ${backups} to its place, and start again.`,
      );
  }
}

const silent = (): void => undefined;

function connect(file: string, fresh: boolean): Knex {
  // The mark comes before the write-ahead log, so that it stands in the file itself from the first moment.
  const mark = fresh ? `PRAGMA application_id = ${APPLICATION_ID};` : '';
  const setup = `${mark} PRAGMA journal_mode = WAL; PRAGMA foreign_keys = ON; PRAGMA busy_timeout = ${BUSY_MS};`;
  return knex({
    client: 'sqlite3',
    connection: { filename: file },
    useNullAsDefault: true,
    // What goes wrong is thrown and told in our words; knex would print it where results belong.
    log: { warn: silent, error: silent, deprecate: silent, debug: silent },
    pool: {
      min: 1,
      max: 1,
      afterCreate: (
        connection: { exec(sql: string, done: (error: Error | null) => void): void },
        done: (error: Error | null, connection: unknown) => void,
      ) => connection.exec(setup, (error) => done(error, connection)),
    },
  });
}

async function prove(db: Knex, file: string): Promise<void> {
  const [found] = (await db.raw('PRAGMA quick_check(1)')) as { quick_check: string }[];
  if (found?.quick_check !== 'ok') throw new Error(found?.quick_check ?? 'no answer');
  const [version] = (await db.raw('PRAGMA user_version')) as { user_version: number }[];
  if (version !== undefined && version.user_version > STORE_VERSION) throw newerThanThis(file, version.user_version);
}

/** Another seat may be migrating the same file: wait for it; a lock that outlives the wait was left by a crash. */
async function migrate(db: Knex): Promise<void> {
  for (let attempt = 1; ; attempt++) {
    try {
      await db.migrate.latest({ migrationSource });
      return;
    } catch (error) {
      if (!(error instanceof Error) || error.name !== 'MigrationLocked') throw error;
      if (attempt > LOCK_TRIES) throw error;
      if (attempt === LOCK_TRIES) await db.migrate.forceFreeMigrationsLock({ migrationSource });
      else await new Promise((resolve) => setTimeout(resolve, LOCK_PAUSE_MS));
    }
  }
}
