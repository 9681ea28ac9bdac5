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

  it('brings a deleted row back whole', async () => {
    const { services, store } = await opened();
    const before = services.shop.jobs[0];
    await store.remove(J1, 'Deleted job J-1.');
    expect(services.shop.jobs.map((job) => job.id)).toEqual(['J-2']);
    await store.takeBack();
    expect(services.shop.jobs.find((job) => job.id === 'J-1')).toEqual(before);
    expect(store.getState().undo).toBeNull();
  });

  it('brings a deleted operation back to its place', async () => {
    const { services, store } = await opened();
    const before = services.shop.jobs[0];
    await store.edit(J1, { ...putting(['route'], before?.route.slice(1)), undo: 'Deleted operation 10.' });
    expect(services.shop.jobs[0]?.route).toHaveLength(1);
    await store.takeBack();
    expect(services.shop.jobs[0]).toEqual(before);
  });

  it('reads the shop again when another seat changed it', async () => {
    const { services, store } = await opened();
    await services.api.call('shop.put', { table: 'pallets', replaces: null, row: { id: 'P9', fixture: 'VISE' } });
    services.tell('shop.changed', { revision: 2 });
    await store.takeBack();
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
