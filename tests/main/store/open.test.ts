import { copyFileSync, existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import knex, { type Knex } from 'knex';
import { describe, expect, it, onTestFinished } from 'vitest';
import { openStore, type Store } from '../../../main/store';
import { emptyPlan } from '../../support/empty-plan';
import { smallShop } from '../../support/small-shop';
import { tempFolder } from '../../support/temp-folder';

const NOW = '2026-11-25T08:00';

async function opened(file: string): Promise<Store> {
  const store = await openStore(
    file,
    () => smallShop(),
    () => NOW,
  );
  onTestFinished(() => store.close());
  return store;
}

/** Works on the file as another program would. */
async function behindItsBack<T>(file: string, work: (db: Knex) => Promise<T>): Promise<T> {
  const db = knex({ client: 'sqlite3', connection: { filename: file }, useNullAsDefault: true });
  try {
    return await work(db);
  } finally {
    await db.destroy();
  }
}

describe('opening a stored shop', () => {
  it('begins with the first shop, in a folder made for it', async () => {
    const file = join(tempFolder(), 'deep', 'er', 'shop.sqlite');
    const store = await opened(file);
    expect((await store.readShop()).shop).toEqual(smallShop());
  });

  it('marks the file as a shop of this program and gives it the newest version', async () => {
    const file = join(tempFolder(), 'shop.sqlite');
    await (
      await openStore(
        file,
        () => smallShop(),
        () => NOW,
      )
    ).close();
    const header = readFileSync(file).subarray(0, 100);
    expect(header.toString('latin1', 68, 72)).toBe('Nlsh');
    expect(header.readUInt32BE(60)).toBe(3);
  });

  it('writes ahead of the database and keeps foreign keys', async () => {
    const file = join(tempFolder(), 'shop.sqlite');
    await (
      await openStore(
        file,
        () => smallShop(),
        () => NOW,
      )
    ).close();
    await behindItsBack(file, async (db) => {
      expect(await db.raw('PRAGMA journal_mode')).toEqual([{ journal_mode: 'wal' }]);
      expect(await db.raw('PRAGMA foreign_key_list(plans)')).toMatchObject([{ table: 'snapshots' }]);
    });
  });

  it('refuses the database of another program and leaves every byte of it', async () => {
    const file = join(tempFolder(), 'shop.sqlite');
    await behindItsBack(file, (db) => db.schema.createTable('records', (table) => table.text('recipe')));
    const before = readFileSync(file);
    await expect(opened(file)).rejects.toThrow(/shop\.sqlite is the database of another program.*--data/s);
    expect(readFileSync(file)).toEqual(before);
    expect(existsSync(`${file}-wal`)).toBe(false);
  });

  it('refuses a file that is no database and leaves it as it is', async () => {
    const file = join(tempFolder(), 'shop.sqlite');
    writeFileSync(file, 'Dear diary,\n'.repeat(20));
    await expect(opened(file)).rejects.toThrow(/is not a database/);
    expect(readFileSync(file, 'utf8')).toMatch(/^Dear diary/);
  });

  it('refuses a folder in place of the file', async () => {
    await expect(opened(tempFolder())).rejects.toThrow(/is a folder/);
  });

  it('refuses a shop written by a newer version of this program', async () => {
    const file = join(tempFolder(), 'shop.sqlite');
    await (
      await openStore(
        file,
        () => smallShop(),
        () => NOW,
      )
    ).close();
    await behindItsBack(file, (db) => db.raw('PRAGMA user_version = 99'));
    await expect(opened(file)).rejects.toThrow(/newer Nightload.*version 99.*update the program/s);
  });

  it('says that a damaged file is damaged and where the backups are', async () => {
    const file = join(tempFolder(), 'shop.sqlite');
    await (
      await openStore(
        file,
        () => smallShop(),
        () => NOW,
      )
    ).close();
    const bytes = readFileSync(file);
    writeFileSync(file, Buffer.concat([bytes.subarray(0, 4096), Buffer.alloc(bytes.length - 4096, 0x5a)]));
    await expect(opened(file)).rejects.toThrow(/is damaged .*backups/s);
  });

  it('brings a file of version 1 up to date with everything in it', async () => {
    const file = join(tempFolder(), 'shop.sqlite');
    await (await opened(file)).close();
    await behindItsBack(file, async (db) => {
      for (const table of ['releases', 'changes', 'origin']) await db.schema.dropTable(table);
      await db.schema.alterTable('shop', (table) => table.dropColumns('plan', 'epoch'));
      await db.schema.alterTable('plans', (table) => table.dropColumns('epoch', 'name'));
      await db('knex_migrations').whereNot({ name: '0001-shop-plans-seat' }).delete();
      await db.raw('PRAGMA user_version = 1');
    });
    const store = await opened(file);
    expect((await store.readShop()).shop.name).toBe('Small shop');
    expect(await store.readPlan('released')).toBeNull();
  });

  it('takes the newest plan of a file of version 2 for the one that counts', async () => {
    const file = join(tempFolder(), 'shop.sqlite');
    const before = await opened(file);
    const of = await before.readShop();
    await before.addPlan({ plan: emptyPlan, of, made: NOW, say: 'Plan' });
    const newest = await before.addPlan({ plan: emptyPlan, of, made: NOW, say: 'Plan' });
    await before.close();
    await behindItsBack(file, async (db) => {
      for (const table of ['changes', 'origin']) await db.schema.dropTable(table);
      await db.schema.alterTable('shop', (table) => table.dropColumns('plan', 'epoch'));
      await db.schema.alterTable('plans', (table) => table.dropColumns('epoch', 'name'));
      await db('knex_migrations').where({ name: '0003-history' }).delete();
      await db.raw('PRAGMA user_version = 2');
    });
    const store = await opened(file);
    expect((await store.readPlan('current'))?.id).toBe(newest);
    expect(await store.listPlans()).toHaveLength(2);
  });

  it('frees a migration lock that a crash left behind', async () => {
    const file = join(tempFolder(), 'shop.sqlite');
    await (
      await openStore(
        file,
        () => smallShop(),
        () => NOW,
      )
    ).close();
    await behindItsBack(file, async (db) => {
      await db('knex_migrations_lock').update({ is_locked: 1 });
      await db('knex_migrations').delete();
      for (const table of ['releases', 'plans', 'snapshots', 'seat', 'shop', 'records', 'changes', 'origin'])
        await db.schema.dropTable(table);
    });
    expect((await (await opened(file)).readShop()).shop.name).toBe('Small shop');
  });

  it('opens the same shop for two seats at once', async () => {
    const file = join(tempFolder(), 'shop.sqlite');
    const [one, other] = [await opened(file), await opened(file)];
    await one.changeShop('Rename the shop', (shop) => ({ ...shop, name: 'Renamed' }));
    expect((await other.readShop()).shop.name).toBe('Renamed');
  });

  it('restores from a backup by copying it to its place', async () => {
    const folder = tempFolder();
    const file = join(folder, 'shop.sqlite');
    const store = await openStore(
      file,
      () => smallShop(),
      () => NOW,
    );
    await store.replaceShop(smallShop({ name: 'Another shop' }), 'import');
    await store.close();
    copyFileSync(join(folder, 'backups', 'shop-2026-11-25T0800-before-import.sqlite'), file);
    expect((await (await opened(file)).readShop()).shop.name).toBe('Small shop');
  });
});
