import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import knex from 'knex';
import { describe, expect, it, onTestFinished } from 'vitest';
import { openStore, type Store } from '../../../main/store';
import { emptyPlan } from '../../support/empty-plan';
import { smallShop } from '../../support/small-shop';
import { tempFolder } from '../../support/temp-folder';

async function opened(folder: string, now: () => string = () => '2026-11-25T08:00'): Promise<Store> {
  const store = await openStore(join(folder, 'shop.sqlite'), () => smallShop(), now);
  onTestFinished(() => store.close());
  return store;
}

describe('a stored shop', () => {
  it('is found again after a restart with its plans and the choices of the seat', async () => {
    const folder = tempFolder();
    const before = await opened(folder);
    const changed = await before.changeShop('Change', (shop) => ({ ...shop, horizonDays: 5 }));
    const id = await before.addPlan({ plan: emptyPlan, of: changed, made: '2026-11-25T08:01', say: 'Plan' });
    await before.writeSeat({ theme: 'dark', planSeconds: 7 });
    await before.close();

    const after = await opened(folder);
    expect(await after.readShop()).toEqual({ shop: changed.shop, revision: changed.revision });
    expect(await after.readPlan('current')).toEqual({
      id,
      released: null,
      name: '',
      made: '2026-11-25T08:01',
      revision: changed.revision,
      plan: emptyPlan,
      shop: changed.shop,
    });
    expect(await after.readSeat()).toEqual({ theme: 'dark', planSeconds: 7 });
  });

  it('is closed once what is being read has been read, and says so to whoever comes later', async () => {
    const store = await opened(tempFolder());
    const reads = Array.from({ length: 20 }, () => store.readShop());
    await store.close();
    expect((await Promise.allSettled(reads)).map(({ status }) => status)).toEqual(reads.map(() => 'fulfilled'));
    await expect(store.readShop()).rejects.toThrow(/is closed\. Start the program again\.$/);
  });

  it('counts every change and keeps the order of rows', async () => {
    const store = await opened(tempFolder());
    const first = await store.readShop();
    const second = await store.changeShop('Change', (shop) => ({ ...shop, jobs: shop.jobs.toReversed() }));
    expect(second.revision).toBe(first.revision + 1);
    expect((await store.readShop()).shop.jobs.map((job) => job.id)).toEqual(['B', 'A']);
  });

  it('builds changes asked at the same time one on the other', async () => {
    const store = await opened(tempFolder());
    await Promise.all(
      Array.from({ length: 8 }, () =>
        store.changeShop('Change', (shop) => ({ ...shop, horizonDays: shop.horizonDays + 1 })),
      ),
    );
    expect((await store.readShop()).shop.horizonDays).toBe(11);
  });

  it('keeps nothing of a change that fails, and goes on with the next', async () => {
    const store = await opened(tempFolder());
    const before = await store.readShop();
    const failing = store.changeShop('Fail', () => {
      throw new Error('no');
    });
    await expect(failing).rejects.toThrow();
    expect(await store.readShop()).toEqual(before);
    await expect(store.changeShop('Change', (shop) => ({ ...shop, name: 'Next' }))).resolves.toBeDefined();
  });

  it('keeps a shop whose ids repeat, so that it can be mended', async () => {
    const store = await opened(tempFolder());
    await store.changeShop('Change', (shop) => ({ ...shop, jobs: [...shop.jobs, ...shop.jobs] }));
    expect((await store.readShop()).shop.jobs.map((job) => job.id)).toEqual(['A', 'B', 'A', 'B']);
  });

  it('lists plans newest first, each with the shop of its time', async () => {
    const store = await opened(tempFolder());
    const first = await store.readShop();
    const one = await store.addPlan({ plan: emptyPlan, of: first, made: '2026-11-25T08:01', say: 'Plan' });
    const second = await store.changeShop('Change', (shop) => ({ ...shop, name: 'Later' }));
    const two = await store.addPlan({ plan: emptyPlan, of: second, made: '2026-11-25T08:02', say: 'Plan' });
    expect((await store.listPlans()).map((plan) => plan.id)).toEqual([two, one]);
    expect((await store.readPlan(one))?.shop.name).toBe('Small shop');
    expect(await store.readPlan(99)).toBeNull();
  });

  it('names the damaged row and where the backups are', async () => {
    const folder = tempFolder();
    const store = await opened(folder);
    const db = knex({ client: 'sqlite3', connection: { filename: store.file }, useNullAsDefault: true });
    await db('records').where({ kind: 'jobs', id: 'B' }).update({ body: '{"id":"B","quantity":"many"}' });
    await expect(store.readShop()).rejects.toThrow(/B in the table jobs is damaged: .*backups/);
    await db('records').where({ kind: 'machines', id: 'M1' }).update({ body: '{"id":' });
    await db.destroy();
    await expect(store.readShop()).rejects.toThrow(/M1 in the table machines is damaged: it is not readable/);
    await store.replaceShop(smallShop(), 'import');
    expect((await store.readShop()).shop).toEqual(smallShop());
  });
});

describe('backups', () => {
  it('are made before a shop is replaced, one for each time', async () => {
    const folder = tempFolder();
    const store = await opened(folder);
    await store.replaceShop(smallShop(), 'import');
    await store.replaceShop(smallShop(), 'import');
    await store.replaceShop(smallShop(), 'reset');
    expect(readdirSync(join(folder, 'backups')).sort()).toEqual([
      'shop-2026-11-25.sqlite',
      'shop-2026-11-25T0800-before-import-2.sqlite',
      'shop-2026-11-25T0800-before-import.sqlite',
      'shop-2026-11-25T0800-before-reset.sqlite',
    ]);
  });

  it('of each day stay for fourteen days of use, and nothing else is deleted', async () => {
    const folder = tempFolder();
    for (let day = 1; day <= 16; day++) {
      const store = await openStore(
        join(folder, 'shop.sqlite'),
        () => smallShop(),
        () => `2026-11-${String(day).padStart(2, '0')}T08:00`,
      );
      await store.close();
      if (day === 1) writeFileSync(join(folder, 'backups', 'my own copy.sqlite'), 'mine');
    }
    const kept = readdirSync(join(folder, 'backups')).sort();
    expect(kept).toHaveLength(15);
    expect(kept).toContain('my own copy.sqlite');
    expect(kept).toContain('shop-2026-11-03.sqlite');
    expect(kept).not.toContain('shop-2026-11-02.sqlite');
  });
});
