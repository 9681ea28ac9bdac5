import { describe, expect, it } from 'vitest';
import type { DeskChange, Lock } from '../../../core/contract';
import { type Bench, benchWith } from '../../support/services-for-test';
import { smallShop } from '../../support/small-shop';

async function planned(): Promise<Bench> {
  const bench = await benchWith();
  const done = bench.next('plan.done');
  await bench.ask('plan.start', { seconds: 1, seed: 1, near: false });
  await bench.solver.finish();
  await done;
  return bench;
}

const lock = (run: string, parts: Partial<Lock>): DeskChange => ({
  locks: [{ run, machine: null, pallet: null, start: null, after: null, ...parts }],
  withdraw: [],
  rush: null,
});

const startOf = async (bench: Bench, run: string): Promise<number | undefined> =>
  (await bench.ask('plan.current', null))?.plan.runs.find((planned) => planned.run === run)?.start;

describe('trying a change by hand', () => {
  it('says where the run comes to be and what changes, and stores nothing', async () => {
    const bench = await planned();
    const before = await bench.ask('plan.current', null);
    const trial = await bench.ask('desk.try', { change: lock('A/10/1', { start: '2026-11-25T14:00' }), seconds: 0 });
    expect(trial?.placed).toEqual([
      { run: 'A/10/1', machine: 'M1', start: '2026-11-25T14:00', end: '2026-11-25T16:00' },
    ]);
    expect(trial?.conflicts).toEqual([]);
    expect(trial?.comparison.moved.map(({ run }) => run)).toContain('A/10/1');
    expect(trial?.say.length).toBeGreaterThan(0);
    expect(await bench.ask('plan.current', null)).toEqual(before);
    expect((await bench.ask('shop.read', null)).wayBack.undo).toMatch(/^Plan of/);
  });

  it('says why a lock can’t be kept', async () => {
    const bench = await planned();
    const trial = await bench.ask('desk.try', { change: lock('A/10/1', { start: '2026-11-26T03:00' }), seconds: 0 });
    const both = await bench.ask('desk.try', {
      change: {
        locks: [
          ...lock('A/10/1', { start: '2026-11-25T14:00' }).locks,
          ...lock('B/10/1', { start: '2026-11-25T14:30' }).locks,
        ],
        withdraw: [],
        rush: null,
      },
      seconds: 0,
    });
    expect(trial?.conflicts).toEqual([]);
    expect(both?.conflicts.length).toBeGreaterThan(0);
    expect(both?.conflicts[0]?.say).toMatch(/A\/10\/1|B\/10\/1/);
  });

  it('is refused where there is no plan, no such run, or a run that has begun', async () => {
    const bench = await benchWith();
    const change = lock('A/10/1', { machine: 'M1' });
    expect(await bench.refused('desk.try', { change, seconds: 0 })).toMatchObject([{ code: 'no-plan' }]);
    const later = await planned();
    const gone = lock('Z/10/1', { machine: 'M1' });
    expect(await later.refused('desk.try', { change: gone, seconds: 0 })).toMatchObject([{ code: 'no-such-run' }]);
    const shop = smallShop({
      floor: [{ run: 'A/10/1', state: 'running', machine: 'M1', pallet: 'P1', start: '2026-11-25T07:30' }],
    });
    const running = await benchWith(shop);
    expect(await running.refused('desk.take', { change, trial: null })).toMatchObject([{ code: 'on-the-floor' }]);
  });
});

describe('making a change by hand', () => {
  it('keeps the plan that was shown, and one undo takes both back', async () => {
    const bench = await planned();
    const change = lock('A/10/1', { start: '2026-11-25T14:00' });
    const was = await startOf(bench, 'A/10/1');
    const trial = await bench.ask('desk.try', { change, seconds: 0 });
    const view = await bench.ask('desk.take', { change, trial: trial?.key ?? null });
    expect(view.shop.floor).toMatchObject([{ run: 'A/10/1', state: 'locked', start: '2026-11-25T14:00' }]);
    expect(view.wayBack.undo).toBe('Lock A/10/1 at 14:00');
    expect(await bench.ask('plan.current', null)).toMatchObject({ outdated: false });
    expect(await startOf(bench, 'A/10/1')).not.toBe(was);
    const undone = await bench.ask('change.undo', null);
    expect(undone.shop.floor).toEqual([]);
    expect(await startOf(bench, 'A/10/1')).toBe(was);
    expect(await bench.ask('plan.current', null)).toMatchObject({ outdated: false });
  });

  it('leaves the plan as it is where the shop has changed since the trial', async () => {
    const bench = await planned();
    const change = lock('A/10/1', { start: '2026-11-25T14:00' });
    const was = await startOf(bench, 'A/10/1');
    const trial = await bench.ask('desk.try', { change, seconds: 0 });
    await bench.ask('shop.put', { table: 'pallets', replaces: null, row: { id: 'P3', fixture: 'vice' } });
    await bench.ask('desk.take', { change, trial: trial?.key ?? null });
    expect(await startOf(bench, 'A/10/1')).toBe(was);
    expect(await bench.ask('plan.current', null)).toMatchObject({ outdated: true });
  });

  it('frees a run with a lock of nothing', async () => {
    const bench = await planned();
    await bench.ask('desk.take', { change: lock('A/10/1', { machine: 'M1' }), trial: null });
    const { shop } = await bench.ask('desk.take', { change: lock('A/10/1', {}), trial: null });
    expect(shop.floor).toEqual([]);
  });

  it('frees a run that a shop file locks and no job has', async () => {
    const bench = await benchWith(smallShop({ floor: [{ run: 'Z/10/1', state: 'locked', machine: 'M1' }] }));
    const { shop } = await bench.ask('desk.take', { change: lock('Z/10/1', {}), trial: null });
    expect(shop.floor).toEqual([]);
  });

  it('withdraws a pallet: no run is planned on it any more', async () => {
    const bench = await planned();
    const change = { locks: [], withdraw: ['P1'], rush: null };
    const trial = await bench.ask('desk.try', { change, seconds: 0 });
    const view = await bench.ask('desk.take', { change, trial: trial?.key ?? null });
    expect(view.shop.pallets).toMatchObject([
      { id: 'P1', inUse: false },
      { id: 'P2', inUse: true },
    ]);
    const { plan } = (await bench.ask('plan.current', null)) ?? {};
    expect(plan?.runs.map(({ pallet }) => pallet)).toEqual(['P2', 'P2']);
  });
});

describe('a rush job', () => {
  const rush = { ...smallShop().jobs[0], id: 'R-1', due: '2026-11-25T14:00', weight: 10 };
  const change = { locks: [], withdraw: [], rush };

  it('is shown with what it displaces before it is in the shop, and dropped without a trace', async () => {
    const bench = await planned();
    const trial = await bench.ask('desk.try', { change, seconds: 0.2 });
    expect(trial?.placed.map(({ run }) => run)).toEqual(['R-1/10/1']);
    expect(trial?.comparison.jobs.added).toEqual(['R-1']);
    expect((await bench.ask('shop.read', null)).shop).toEqual(smallShop());
  });

  it('is taken with the plan that was shown', async () => {
    const bench = await planned();
    const trial = await bench.ask('desk.try', { change, seconds: 0.2 });
    const view = await bench.ask('desk.take', { change, trial: trial?.key ?? null });
    expect(view.shop.jobs.map(({ id }) => id)).toEqual(['A', 'B', 'R-1']);
    expect(view.wayBack.undo).toBe('Put in rush job R-1');
    expect(await bench.ask('plan.current', null)).toMatchObject({ outdated: false });
    expect(await startOf(bench, 'R-1/10/1')).toBeDefined();
  });

  it('is refused with a sentence where it is no job', async () => {
    const bench = await planned();
    const wrong = { ...change, rush: { ...rush, quantity: 0 } };
    const [fault] = await bench.refused('desk.try', { change: wrong, seconds: 0 });
    expect(fault?.say).toMatch(/R-1.*quantity.*at least 1/);
  });
});
