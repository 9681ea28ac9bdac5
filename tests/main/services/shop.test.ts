import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readShopText, writeShopText } from '../../../core/exchange';
import type { Shop } from '../../../core/shop';
import { benchWith } from '../../support/services-for-test';
import { smallShop } from '../../support/small-shop';

const settings = (({ name, zone, horizonDays, planFrom, weights, walking, night }) => ({
  name,
  zone,
  horizonDays,
  planFrom,
  weights,
  walking,
  night,
}))(smallShop());

describe('reading the shop', () => {
  it('gives the shop, its faults and the present moment', async () => {
    const { ask } = await benchWith();
    const view = await ask('shop.read', null);
    expect(view).toMatchObject({ shop: smallShop(), present: '2026-11-25T08:00' });
    expect(view.faults.filter((fault) => fault.level === 'error')).toEqual([]);
  });
});

describe('putting a row', () => {
  it('adds a new one at the end, says so, and counts the change', async () => {
    const bench = await benchWith();
    const before = await bench.ask('shop.read', null);
    const heard = bench.next('shop.changed');
    const after = await bench.ask('shop.put', { table: 'pallets', replaces: null, row: { id: 'P3', fixture: 'vice' } });
    expect(after.shop.pallets.map((pallet) => pallet.id)).toEqual(['P1', 'P2', 'P3']);
    expect(after.revision).toBe(before.revision + 1);
    expect(await heard).toEqual({ revision: after.revision });
  });

  it('replaces the row it names, in its place', async () => {
    const { ask } = await benchWith();
    const { shop } = await ask('shop.put', { table: 'pallets', replaces: 'P1', row: { id: 'P1', fixture: 'chuck' } });
    expect(shop.pallets.map((pallet) => [pallet.id, pallet.fixture])).toEqual([
      ['P1', 'chuck'],
      ['P2', 'vice'],
    ]);
  });

  it('changes a changed machine in pallets, operations, shared causes and on the floor', async () => {
    const shop = smallShop({
      floor: [{ run: 'A/10/1', state: 'locked', machine: 'M1', pallet: 'P1' }],
      night: { shared: [{ name: 'Power', chance: 0.01, machines: ['M1'] }] },
    });
    const { ask } = await benchWith(shop);
    const after = await ask('shop.put', { table: 'machines', replaces: 'M1', row: { ...shop.machines[0], id: 'M9' } });
    expect(after.shop.pallets[0]?.machines).toEqual(['M9']);
    expect(after.shop.jobs.map((job) => job.route[0]?.machines[0]?.machine)).toEqual(['M9', 'M9']);
    expect(after.shop.floor[0]?.machine).toBe('M9');
    expect(after.shop.night.shared[0]?.machines).toEqual(['M9']);
    expect(after.faults.filter((fault) => fault.level === 'error')).toEqual([]);
  });

  it('changes a changed pallet, job, cell and tool wherever they are named', async () => {
    const shop = smallShop({
      machines: [{ id: 'M1', kind: 'mill', cell: 'C1', magazine: [{ tool: 'T1', left: [300] }] }],
      floor: [{ run: 'A/10/1', state: 'locked', machine: 'M1', pallet: 'P1' }],
    });
    const [job] = shop.jobs;
    const route = job?.route.map((operation) => ({
      ...operation,
      tools: [{ tool: 'T1', minutes: 30 }],
      proof: { goodRuns: 3, tools: ['T1'] },
    }));
    const { ask } = await benchWith(shop);
    await ask('shop.put', { table: 'jobs', replaces: 'A', row: { ...job, route } });
    await ask('shop.put', { table: 'pallets', replaces: 'P1', row: { ...shop.pallets[0], id: 'P9' } });
    await ask('shop.put', { table: 'jobs', replaces: 'A', row: { ...job, route, id: 'A9' } });
    await ask('shop.put', { table: 'cells', replaces: 'C1', row: { ...shop.cells[0], id: 'C9' } });
    const after = await ask('shop.put', { table: 'tools', replaces: 'T1', row: { ...shop.tools[0], id: 'T9' } });
    expect(after.shop.floor[0]).toMatchObject({ run: 'A9/10/1', pallet: 'P9' });
    expect(after.shop.machines[0]).toMatchObject({ cell: 'C9', magazine: [{ tool: 'T9' }] });
    expect(after.shop.jobs[0]?.route[0]?.tools[0]?.tool).toBe('T9');
    expect(after.shop.jobs[0]?.route[0]?.proof?.tools).toEqual(['T9']);
  });

  it('keeps the floor with an operation that gets another name, and forgets runs that are no more', async () => {
    const shop = smallShop({ floor: [{ run: 'A/10/1', state: 'locked', machine: 'M1', pallet: 'P1' }] });
    const [job] = shop.jobs;
    const route = job?.route.map((operation) => ({ ...operation, id: '15' }));
    const { ask } = await benchWith(shop);
    const renamed = await ask('shop.put', { table: 'jobs', replaces: 'A', row: { ...job, route } });
    expect(renamed.shop.floor.map((entry) => entry.run)).toEqual(['A/15/1']);
    const removed = await ask('shop.remove', { table: 'jobs', id: 'A' });
    expect(removed.shop.floor).toEqual([]);
    expect(removed.faults.filter((fault) => fault.code === 'unknown-run')).toEqual([]);
  });

  it('lets a lock behind a run follow its new name, and takes the order off with the run', async () => {
    const jobs = smallShop().jobs.map((each) => ({ ...each, quantity: 2 }));
    const shop = smallShop({
      jobs,
      floor: [
        { run: 'B/10/1', state: 'locked', after: 'A/10/1' },
        { run: 'B/10/2', state: 'locked', machine: 'M1', after: 'A/10/1' },
      ],
    });
    const { ask } = await benchWith(shop);
    const [job] = shop.jobs;
    const orders = (after: { shop: Shop }) => after.shop.floor.map((entry) => [entry.run, entry.machine, entry.after]);
    const renamed = await ask('shop.put', { table: 'jobs', replaces: 'A', row: { ...job, id: 'A9' } });
    expect(orders(renamed)).toEqual([
      ['B/10/1', null, 'A9/10/1'],
      ['B/10/2', 'M1', 'A9/10/1'],
    ]);
    const route = job?.route.map((operation) => ({ ...operation, id: '15' }));
    const changed = await ask('shop.put', { table: 'jobs', replaces: 'A9', row: { ...job, id: 'A9', route } });
    expect(orders(changed).map(([, , after]) => after)).toEqual(['A9/15/1', 'A9/15/1']);
    const removed = await ask('shop.remove', { table: 'jobs', id: 'A9' });
    expect(orders(removed)).toEqual([['B/10/2', 'M1', null]]);
    expect(removed.faults.filter((fault) => fault.level === 'error')).toEqual([]);
  });

  it('refuses an id that another row has', async () => {
    const { refused, ask } = await benchWith();
    const row = { id: 'P2', fixture: 'vice' };
    for (const replaces of [null, 'P1']) {
      const [fault] = await refused('shop.put', { table: 'pallets', replaces, row });
      expect(fault).toMatchObject({ code: 'duplicate-id', at: ['id'] });
    }
    expect((await ask('shop.read', null)).shop).toEqual(smallShop());
  });

  it('refuses a bad row by its field, and a row that is gone', async () => {
    const { refused } = await benchWith();
    const [bad] = await refused('shop.put', {
      table: 'jobs',
      replaces: null,
      row: { id: 'C', due: 'soon', route: [] },
    });
    expect(bad).toMatchObject({ at: ['due'] });
    const row = { id: 'P7', fixture: 'vice' };
    const [gone] = await refused('shop.put', { table: 'pallets', replaces: 'P7', row });
    expect(gone).toMatchObject({ code: 'no-such-row', say: expect.stringContaining('P7') });
  });
});

describe('removing a row', () => {
  it('removes only it, and what still names it is a fault', async () => {
    const { ask, refused } = await benchWith();
    const after = await ask('shop.remove', { table: 'machines', id: 'M1' });
    expect(after.shop.machines).toEqual([]);
    expect(after.shop.jobs).toEqual(smallShop().jobs);
    expect(after.faults.some((fault) => fault.level === 'error' && fault.say.includes('M1'))).toBe(true);
    expect(await refused('shop.remove', { table: 'machines', id: 'M1' })).toMatchObject([{ code: 'no-such-row' }]);
  });
});

describe('the settings of the shop', () => {
  it('are changed together and leave the tables alone', async () => {
    const { ask } = await benchWith();
    const { shop } = await ask('shop.settings', { ...settings, horizonDays: 9 });
    expect(shop).toEqual({ ...smallShop(), horizonDays: 9 });
  });

  it('take what is usual of the nights, and refuse a share above all', async () => {
    const { ask, refused } = await benchWith();
    const night = { ...settings.night, repeatShare: 0.9, shared: [{ name: 'Power', chance: 0.01, machines: ['M1'] }] };
    const { shop } = await ask('shop.settings', { ...settings, night });
    expect(shop.night).toEqual(night);
    const [fault] = await refused('shop.settings', { ...settings, night: { ...night, repeatShare: 1.2 } });
    expect(fault?.say).toMatch(/repeatShare: must be at most 1/);
  });

  it('are refused with a zone nobody knows', async () => {
    const { refused } = await benchWith();
    const [fault] = await refused('shop.settings', { ...settings, zone: 'Mars/Olympus' });
    expect(fault?.say).toMatch(/zone: is no time zone/);
  });
});

describe('shop files', () => {
  it('come back as they went out', async () => {
    const { ask } = await benchWith();
    const { fileName, text } = await ask('shop.export', null);
    expect(fileName).toBe('small-shop.json');
    expect(readShopText(text)).toEqual({ ok: true, value: smallShop() });
    expect((await ask('shop.import', { text })).shop).toEqual(smallShop());
  });

  it('take the place of the shop and its plans, of which a dated backup is kept', async () => {
    const bench = await benchWith();
    await bench.ask('plan.start', { seconds: 1, seed: 1, near: false });
    const done = bench.next('plan.done');
    await bench.solver.finish();
    await done;
    const { shop } = await bench.ask('shop.import', { text: writeShopText(smallShop({ name: 'Other' })) });
    expect(shop.name).toBe('Other');
    expect(await bench.ask('plan.current', null)).toBeNull();
    expect(readdirSync(join(bench.folder, 'backups'))).toContain('shop-2026-11-25T0800-before-import.sqlite');
  });

  it('that are cut off, of another version or no shop file are refused, and nothing is lost', async () => {
    const bench = await benchWith();
    const text = writeShopText(smallShop());
    for (const bad of [text.slice(0, 200), text.replace('"version": 1', '"version": 7'), '{}', '']) {
      const faults = await bench.refused('shop.import', { text: bad });
      expect(faults[0]?.say).toMatch(/\.$/);
    }
    expect((await bench.ask('shop.read', null)).shop).toEqual(smallShop());
    expect(readdirSync(join(bench.folder, 'backups'))).toEqual(['shop-2026-11-25.sqlite']);
  });
});

describe('beginning anew', () => {
  it('with the demo shop or an empty one keeps a dated backup', async () => {
    const bench = await benchWith();
    expect((await bench.ask('shop.reset', { to: 'empty' })).shop.jobs).toEqual([]);
    const demo = await bench.ask('shop.reset', { to: 'demo' });
    expect(demo.shop.jobs.length).toBeGreaterThan(10);
    expect(readdirSync(join(bench.folder, 'backups'))).toContain('shop-2026-11-25T0800-before-reset-2.sqlite');
  });
});

describe('the choices of a seat', () => {
  it('are kept, and refused out of their range', async () => {
    const { ask, refused } = await benchWith();
    expect((await ask('seat.read', null)).theme).toBe('system');
    await ask('seat.put', { theme: 'light', planSeconds: 3 });
    expect(await ask('seat.read', null)).toEqual({ theme: 'light', planSeconds: 3 });
    expect(await refused('seat.put', { theme: 'pink', planSeconds: 3 })).toMatchObject([{ at: ['theme'] }]);
    expect(await refused('seat.put', { theme: 'dark', planSeconds: 0 })).toMatchObject([{ at: ['planSeconds'] }]);
  });
});

describe('a call', () => {
  it('that nobody knows is refused', async () => {
    const { refused } = await benchWith();
    for (const name of ['shop.burn', 'constructor', '__proto__', null, 7]) {
      expect(await refused(name, null)).toMatchObject([{ code: 'no-such-call' }]);
    }
  });

  it('with something wrong sent names the call and the field', async () => {
    const { refused } = await benchWith();
    expect((await refused('shop.remove', { table: 'walls', id: 'x' }))[0]?.say).toMatch(
      /^shop\.remove, table: must be/,
    );
    expect((await refused('plan.start', { seconds: -1, seed: 1 }))[0]?.at).toEqual(['seconds']);
    expect((await refused('plan.read', {}))[0]?.at).toEqual(['id']);
    expect((await refused('shop.read', 'now'))[0]?.code).toBe('bad-input');
  });
});

describe('putting many rows', () => {
  it('is one change: new ones at the end, others in their place', async () => {
    const { ask } = await benchWith();
    const before = await ask('shop.read', null);
    const after = await ask('shop.putMany', {
      table: 'pallets',
      rows: [
        { replaces: null, row: { id: 'P3', fixture: 'vice' } },
        { replaces: 'P1', row: { id: 'P1', fixture: 'chuck' } },
      ],
      say: 'Import 2 pallets',
    });
    expect(after.revision).toBe(before.revision + 1);
    expect(after.shop.pallets.map(({ id, fixture }) => [id, fixture])).toEqual([
      ['P1', 'chuck'],
      ['P2', 'vice'],
      ['P3', 'vice'],
    ]);
  });

  it('puts none in where one is wrong, and every fault begins with the place of its row', async () => {
    const { ask, refused } = await benchWith();
    const faults = await refused('shop.putMany', {
      table: 'pallets',
      rows: [
        { replaces: null, row: { id: 'P3', fixture: 'vice' } },
        { replaces: null, row: { id: 'P4' } },
        { replaces: null, row: { id: 'P3', fixture: 'vice' } },
        { replaces: 'P9', row: { id: 'P9', fixture: 'vice' } },
      ],
      say: 'Import 4 pallets',
    });
    expect(faults.map(({ code, at }) => [code, at])).toEqual([
      ['bad-field', [1, 'fixture']],
      ['duplicate-id', [2, 'id']],
      ['no-such-row', [3]],
    ]);
    expect((await ask('shop.read', null)).shop).toEqual(smallShop());
  });

  it('changes a changed machine and tool in the routes of jobs and templates alike', async () => {
    const [job] = smallShop().jobs;
    const route = job?.route.map((operation) => ({ ...operation, tools: [{ tool: 'T1', minutes: 30 }] })) ?? [];
    const { ask } = await benchWith(smallShop({ templates: [{ id: 'Cap', route }] }));
    const machine = smallShop().machines[0];
    await ask('shop.putMany', {
      table: 'machines',
      rows: [{ replaces: 'M1', row: { ...machine, id: 'M9' } }],
      say: 'Rename M1',
    });
    const after = await ask('shop.put', { table: 'tools', replaces: 'T1', row: { id: 'T9', life: 600 } });
    const [operation] = after.shop.templates[0]?.route ?? [];
    expect(operation).toMatchObject({ machines: [{ machine: 'M9' }], tools: [{ tool: 'T9', minutes: 30 }] });
    expect(after.shop.jobs[0]?.route[0]?.machines[0]?.machine).toBe('M9');
  });

  it('keeps the floor of jobs it changes and forgets runs that are no more', async () => {
    const shop = smallShop({
      floor: [
        { run: 'A/10/1', state: 'locked', machine: 'M1', pallet: 'P1' },
        { run: 'B/10/1', state: 'locked', machine: 'M1', pallet: 'P2' },
      ],
    });
    const [a, b] = shop.jobs;
    const { ask } = await benchWith(shop);
    const after = await ask('shop.putMany', {
      table: 'jobs',
      rows: [
        { replaces: 'A', row: { ...a, route: a?.route.map((operation) => ({ ...operation, id: '15' })) } },
        {
          replaces: 'B',
          row: {
            ...b,
            route: [
              { ...b?.route[0], id: '15' },
              { ...b?.route[0], id: '25' },
            ],
          },
        },
        { replaces: null, row: { ...a, id: 'C' } },
        { replaces: 'C', row: { ...a, id: 'C', quantity: 2 } },
      ],
      say: 'Import 3 jobs',
    });
    expect(after.shop.floor.map(({ run }) => run)).toEqual(['A/15/1']);
    expect(after.shop.jobs.map(({ id, quantity }) => [id, quantity])).toEqual([
      ['A', 1],
      ['B', 1],
      ['C', 2],
    ]);
  });
});

describe('reading a sheet', () => {
  it('says what it would put into the shop, and changes nothing', async () => {
    const { ask } = await benchWith();
    const sheet = {
      table: 'pallets',
      cells: [
        ['pallet', 'fixture'],
        ['P1', 'chuck'],
        ['P3', ''],
      ],
      header: null,
      columns: null,
      timeOfDay: '16:00',
    } as const;
    const reading = await ask('rows.read', sheet);
    expect(reading.puts.map(({ replaces }) => replaces)).toEqual(['P1']);
    expect(reading.rows.map(({ faults }) => faults.length)).toEqual([0, 1]);
    expect((await ask('shop.read', null)).shop).toEqual(smallShop());
  });

  it('refuses more rows than can be looked through, and a time that is none', async () => {
    const { refused } = await benchWith();
    const sheet = { table: 'pallets', cells: [], header: null, columns: null, timeOfDay: '16:00' };
    const cells = Array.from({ length: 20_001 }, () => ['P1']);
    expect((await refused('rows.read', { ...sheet, cells }))[0]?.say).toContain('has more than 20000 rows');
    expect((await refused('rows.read', { ...sheet, timeOfDay: '24:00' }))[0]?.at).toEqual(['timeOfDay']);
  });
});
