import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { openStore, type Store } from '../../../main/store';
import { emptyPlan } from '../../support/empty-plan';
import { smallShop } from '../../support/small-shop';
import { tempFolder } from '../../support/temp-folder';

async function opened(folder = tempFolder()): Promise<Store> {
  const store = await openStore(
    join(folder, 'shop.sqlite'),
    () => smallShop(),
    () => '2026-11-25T08:00',
  );
  onTestFinished(() => store.close());
  return store;
}

const shopOf = async (store: Store) => (await store.readShop()).shop;
const named = (store: Store, name: string) => store.changeShop(`Call it ${name}`, (shop) => ({ ...shop, name }));
const currentOf = async (store: Store) => (await store.readPlan('current'))?.id ?? null;

describe('undo and redo', () => {
  it('go back through every change and forward again', async () => {
    const store = await opened();
    const states = [await shopOf(store)];
    states.push((await named(store, 'One')).shop);
    states.push((await store.changeShop('Turn', (shop) => ({ ...shop, jobs: shop.jobs.toReversed() }))).shop);
    states.push((await store.changeShop('Take out', (shop) => ({ ...shop, pallets: shop.pallets.slice(1) }))).shop);
    for (const state of states.slice(0, -1).toReversed()) expect((await store.undo()).shop).toEqual(state);
    for (const state of states.slice(1)) expect((await store.redo()).shop).toEqual(state);
  });

  it('say what they would do, and refuse with a sentence where there is nothing', async () => {
    const store = await opened();
    expect(await store.wayBack()).toEqual({ undo: null, redo: null });
    await expect(store.undo()).rejects.toThrow('There is nothing left to undo.');
    await named(store, 'One');
    expect(await store.wayBack()).toEqual({ undo: 'Call it One', redo: null });
    await store.undo();
    expect(await store.wayBack()).toEqual({ undo: null, redo: 'Call it One' });
  });

  it('are still there after a restart', async () => {
    const folder = tempFolder();
    const before = await opened(folder);
    await named(before, 'One');
    await named(before, 'Two');
    await before.undo();
    await before.close();
    const after = await opened(folder);
    expect((await after.redo()).shop.name).toBe('Two');
    await after.undo();
    expect((await after.undo()).shop.name).toBe('Small shop');
  });

  it('forget what was undone once something else is changed', async () => {
    const store = await opened();
    await named(store, 'One');
    await store.undo();
    await named(store, 'Two');
    await expect(store.redo()).rejects.toThrow('nothing to do again');
    expect((await store.listChanges()).map(({ say, undone }) => [say, undone])).toEqual([['Call it Two', false]]);
  });

  it('keep nothing of a change that changes nothing', async () => {
    const store = await opened();
    expect((await store.changeShop('Nothing', (shop) => shop)).change).toBeNull();
    expect(await store.listChanges()).toEqual([]);
  });

  it('give every change a revision of its own, so that no screen takes an older shop for a newer one', async () => {
    const store = await opened();
    const { revision } = await named(store, 'One');
    expect((await store.undo()).revision).toBe(revision + 1);
  });

  it('bring back the shop that was there before an import, with its plans', async () => {
    const store = await opened();
    const plan = await store.addPlan({
      plan: emptyPlan,
      of: await store.readShop(),
      made: '2026-11-25T08:01',
      say: 'Plan',
    });
    await store.replaceShop(smallShop({ name: 'Another' }), 'import');
    expect(await currentOf(store)).toBeNull();
    expect(await store.listPlans()).toEqual([]);
    await store.undo();
    expect((await shopOf(store)).name).toBe('Small shop');
    expect(await currentOf(store)).toBe(plan);
    expect(await store.listPlans()).toHaveLength(1);
  });
});

describe('the plan that counts', () => {
  const plan = async (store: Store, joins: number | null = null) =>
    store.addPlan({ plan: emptyPlan, of: await store.readShop(), made: '2026-11-25T08:01', say: 'Plan', joins });

  it('is the last one made, and the one before it after an undo', async () => {
    const store = await opened();
    const [one, two] = [await plan(store), await plan(store)];
    expect(await currentOf(store)).toBe(two);
    await store.undo();
    expect(await currentOf(store)).toBe(one);
    await store.redo();
    expect(await currentOf(store)).toBe(two);
  });

  it('goes with the change it was made for: both are undone together', async () => {
    const store = await opened();
    const first = await plan(store);
    const { change } = await named(store, 'One');
    const second = await plan(store, change);
    expect(await currentOf(store)).toBe(second);
    const undone = await store.undo();
    expect(undone.shop.name).toBe('Small shop');
    expect(await currentOf(store)).toBe(first);
  });

  it('stands for itself where something else was changed in between', async () => {
    const store = await opened();
    const { change } = await named(store, 'One');
    await named(store, 'Two');
    await plan(store, change);
    expect((await store.undo()).shop.name).toBe('Two');
    expect(await currentOf(store)).toBeNull();
  });

  it('can be an earlier one, with the shop it was made for', async () => {
    const store = await opened();
    const first = await plan(store);
    const { shop } = await store.readShop();
    await named(store, 'One');
    await plan(store);
    expect((await store.usePlan(first, 'Bring back', null)).shop.name).toBe('One');
    expect(await currentOf(store)).toBe(first);
    expect((await store.usePlan(first, 'Bring back', shop)).shop.name).toBe('Small shop');
    await store.undo();
    await store.undo();
    expect((await shopOf(store)).name).toBe('One');
    expect(await currentOf(store)).not.toBe(first);
  });

  it('can be named and released, and both can be undone', async () => {
    const store = await opened();
    const id = await plan(store);
    await store.namePlan(id, 'Before the holidays');
    await store.releasePlan(id, { at: '2026-11-25T14:00', checked: [] });
    expect(await store.listPlans()).toMatchObject([{ id, name: 'Before the holidays', released: true, current: true }]);
    await store.undo();
    expect(await store.listPlans()).toMatchObject([{ name: 'Before the holidays', released: false }]);
    await store.undo();
    expect(await store.listPlans()).toMatchObject([{ name: '' }]);
  });
});
