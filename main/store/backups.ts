import { existsSync } from 'node:fs';
import { mkdir, readdir, rename, rm } from 'node:fs/promises';
import { join } from 'node:path';
import type { Knex } from 'knex';

const DAYS_KEPT = 14;
const DAILY = /^shop-\d{4}-\d{2}-\d{2}\.sqlite$/;

/** Dated copies of a shop's file, in the folder `backups` beside it. */
export interface Backups {
  readonly folder: string;
  /** One copy a day; the last 14 stay. */
  daily(): Promise<void>;
  /** A copy that stays until somebody deletes it; returns its file. */
  before(what: 'import' | 'reset'): Promise<string>;
  /** Moves another file of this kind in, under a dated name. */
  keep(file: string, what: string): Promise<void>;
}

/** `now` gives the local wall time `YYYY-MM-DDTHH:MM`. */
export function backupsOf(db: Knex, dataFolder: string, now: () => string): Backups {
  const folder = join(dataFolder, 'backups');

  async function copyTo(file: string): Promise<void> {
    await mkdir(folder, { recursive: true });
    // Not a file copy: the newest changes may still be in the write-ahead log.
    await db.raw('VACUUM INTO ?', [file]);
  }

  function freeName(what: string): string {
    const stem = join(folder, `shop-${now().replace(':', '')}-${what}`);
    let file = `${stem}.sqlite`;
    for (let n = 2; existsSync(file); n++) file = `${stem}-${n}.sqlite`;
    return file;
  }

  return {
    folder,
    async daily() {
      const today = join(folder, `shop-${now().slice(0, 10)}.sqlite`);
      if (!existsSync(today)) await copyTo(today);
      const days = (await readdir(folder)).filter((name) => DAILY.test(name)).sort();
      for (const old of days.slice(0, -DAYS_KEPT)) await rm(join(folder, old));
    },
    async before(what) {
      const file = freeName(`before-${what}`);
      await copyTo(file);
      return file;
    },
    async keep(file, what) {
      await mkdir(folder, { recursive: true });
      await rename(file, freeName(what));
    },
  };
}
