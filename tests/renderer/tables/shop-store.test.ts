import { describe, expect, it } from 'vitest';
import type { Job } from '../../../core/shop';
import { createShopStore, keyOfFault, nextId, putting, setIn } from '../../../renderer/tables';
import { fakeServices } from './fake-services';

const J1 = { table: 'jobs', id: 'J-1' } as const;

async function opened() {
  const services = fakeServices();
  const store = createShopStore(services.api);
  await store.read();
  return { services, store };
}

describe('the store of the shop', () => {
  it('builds a quick second edit on the first', async () => {
    const { services, store } = await opened();
    await Promise.all([
      store.edit(J1, putting(['customer'], 'Moon')),
      store.edit(J1, putting(['quantity'], 9)),
      store.edit(J1, putting(['route', 1, 'load'], 7)),
    ]);
    const job = services.shop.jobs[0] as Job;
    expect([job.customer, job.quantity, job.route[1]?.load]).toEqual(['Moon', 9, 7]);
  });

  it('keeps every field that the edit is not about', async () => {
    const { services, store } = await opened();
    const before = structuredClone(services.shop);
    await store.edit(J1, putting(['route', 0, 'fixture'], 'CHUCK'));
    await store.edit(J1, putting(['route', 0, 'fixture'], 'VISE'));
    await store.edit({ table: 'machines', id: 'M1' }, putting(['spot'], 'hall'));
    await store.edit({ table: 'machines', id: 'M1' }, putting(['spot'], ''));
    expect(services.shop).toEqual(before);
  });

  it('keeps what was typed and says why when an edit is refused', async () => {
    const { services, store } = await opened();
    services.refuseNext('shop.put', 'Not today.');
    expect(await store.edit(J1, putting(['name'], 'Other', 'Other'))).toBe(false);
    expect(store.getState().refusals['jobs/J-1/name']).toEqual({ text: 'Other', say: 'Not today.' });
    await store.edit(J1, putting(['name'], 'Better', 'Better'));
    expect(store.getState().refusals).toEqual({});
  });

  it('says so when the services cannot be reached', async () => {
    const { services, store } = await opened();
    services.api.call = () => Promise.reject(new Error('gone'));
    await store.edit(J1, putting(['name'], 'Other', 'Other'));
    expect(store.getState().refusals['jobs/J-1/name']?.say).toContain('did not answer');
  });

  it('takes a renamed row with its open details and its refusals', async () => {
    const { store } = await opened();
    const handle = store.handle('jobs/J-1');
    store.setOpen('jobs/J-1', true);
    store.refuse('jobs/J-1/due', { text: 'soon', say: 'When?' });
    await store.edit(J1, putting(['id'], 'J-9'));
    expect(store.getState().open).toEqual(new Set(['jobs/J-9']));
    expect(Object.keys(store.getState().refusals)).toEqual(['jobs/J-9/due']);
    expect(store.handle('jobs/J-9')).toBe(handle);
    expect(store.handle('jobs/J-1')).not.toBe(handle);
  });

  it('brings a deleted row back whole, and takes it out once more', async () => {
    const { services, store } = await opened();
    const before = services.shop.jobs[0];
    await store.remove(J1, 'Deleted job J-1.');
    expect(services.shop.jobs.map((job) => job.id)).toEqual(['J-2']);
    expect(store.getState().strip).toMatchObject({ say: 'Deleted job J-1.', offer: 'undo' });
    await store.goBack('undo');
    expect(services.shop.jobs[0]).toEqual(before);
    expect(store.getState().strip).toMatchObject({ say: 'Undone: Delete J-1 from jobs.', offer: 'redo' });
    await store.goBack('redo');
    expect(services.shop.jobs.map((job) => job.id)).toEqual(['J-2']);
    expect(store.getState().strip).toMatchObject({ say: 'Done again: Delete J-1 from jobs.', offer: 'undo' });
  });

  it('brings a deleted operation back to its place', async () => {
    const { services, store } = await opened();
    const before = services.shop.jobs[0];
    await store.edit(J1, { ...putting(['route'], before?.route.slice(1)), undo: 'Deleted operation 10.' });
    expect(services.shop.jobs[0]?.route).toHaveLength(1);
    await store.goBack('undo');
    expect(services.shop.jobs[0]).toEqual(before);
  });

  it('offers no way back from a deletion once something else was changed: undo would take back that', async () => {
    const { services, store } = await opened();
    await store.remove(J1, 'Deleted job J-1.');
    await store.edit({ table: 'machines', id: 'M1' }, putting(['spot'], 'hall'));
    expect(store.getState().strip).toBeNull();
    await store.remove({ table: 'jobs', id: 'J-2' }, 'Deleted job J-2.');
    await services.api.call('shop.put', { table: 'pallets', replaces: null, row: { id: 'P9', fixture: 'VISE' } });
    services.tell('shop.changed', { revision: 5 });
    await store.goBack('undo');
    expect(services.shop.pallets.some(({ id }) => id === 'P9')).toBe(false);
    expect(services.shop.jobs).toEqual([]);
  });

  it('says why nothing was undone, and offers it again', async () => {
    const { services, store } = await opened();
    await store.remove(J1, 'Deleted job J-1.');
    services.refuseNext('change.undo', 'A plan is being made for this shop; stop it first.');
    await store.goBack('undo');
    const say = 'Not undone. A plan is being made for this shop; stop it first.';
    expect(store.getState().strip).toMatchObject({ say, offer: 'undo' });
    await store.goBack('undo');
    expect(services.shop.jobs.map((job) => job.id)).toEqual(['J-1', 'J-2']);
  });

  it('knows the way back after a plan was made, which changes nothing of the shop', async () => {
    const { services, store } = await opened();
    const before = services.calls.filter(({ name }) => name === 'shop.read').length;
    services.tell('plan.done', { id: 3 });
    await store.goBack('undo');
    expect(services.calls.filter(({ name }) => name === 'shop.read')).toHaveLength(before + 1);
  });

  it('reads the shop again when another seat changed it', async () => {
    const { services, store } = await opened();
    await services.api.call('shop.put', { table: 'pallets', replaces: null, row: { id: 'P9', fixture: 'VISE' } });
    services.tell('shop.changed', { revision: 2 });
    await store.edit(J1, putting(['customer'], 'Moon'));
    expect(store.getState().view?.shop.pallets.at(-1)?.id).toBe('P9');
  });
});

describe('names of places', () => {
  it('turns the index in a fault into the id of the row', async () => {
    const { services } = await opened();
    const fault = { code: 'x', say: '', level: 'error' } as const;
    expect(keyOfFault(services.shop, { ...fault, at: ['jobs', 0, 'route', 1, 'fixture'] })).toBe(
      'jobs/J-1/route/1/fixture',
    );
    expect(keyOfFault(services.shop, { ...fault, at: ['jobs'] })).toBe('jobs');
    expect(keyOfFault(services.shop, { ...fault, at: ['planFrom'] })).toBe('settings/planFrom');
  });

  it('puts a value deep inside a copy and leaves the original', () => {
    const before = { a: [{ b: 1, c: 2 }], d: 3 };
    expect(setIn(before, ['a', 0, 'b'], 9)).toEqual({ a: [{ b: 9, c: 2 }], d: 3 });
    expect(before.a[0]?.b).toBe(1);
  });

  it('counts an id up to the next free one', () => {
    expect(nextId('J-104', ['J-104', 'J-105'])).toBe('J-106');
    expect(nextId('P-09', ['P-09'])).toBe('P-10');
    expect(nextId('Ada', ['Ada'])).toBe('Ada-2');
  });
});
