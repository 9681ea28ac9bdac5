import { describe, expect, it } from 'vitest';
import { benchWith } from '../../support/services-for-test';
import { smallShop } from '../../support/small-shop';

const wish = { seconds: 1, seed: 1, near: false };

describe('planning', () => {
  it('ends with a stored plan and its report', async () => {
    const bench = await benchWith();
    const done = bench.next('plan.done');
    await bench.ask('plan.start', wish);
    await bench.solver.finish();
    const { id } = await done;
    const view = await bench.ask('plan.current', null);
    expect(view).toMatchObject({ id, made: '2026-11-25T08:00', outdated: false, shop: smallShop() });
    expect(view?.plan.runs).toHaveLength(2);
    expect(view?.report.machines.map((machine) => machine.machine)).toEqual(['M1']);
    expect(await bench.ask('plan.read', { id })).toEqual(view);
    expect(await bench.ask('plan.list', null)).toEqual([
      { id, made: view?.made, name: '', cost: view?.plan.cost, released: false, current: true },
    ]);
  });

  it('asks the solver for the moment the shop plans from, and begins from the plan before', async () => {
    const bench = await benchWith();
    for (const expected of [null, expect.objectContaining({ format: 'nightload-plan' })]) {
      const done = bench.next('plan.done');
      await bench.ask('plan.start', wish);
      expect(bench.solver.jobs.at(-1)).toMatchObject({
        at: '2026-11-25T08:00',
        seconds: 1,
        seed: 1,
        previous: expected,
      });
      expect(bench.solver.jobs.at(-1)?.near).toBeUndefined();
      await bench.solver.finish();
      await done;
    }
  });

  it('asks, around changes, to stay near to the plan that counts', async () => {
    const bench = await benchWith();
    for (const near of [true, true]) {
      const done = bench.next('plan.done');
      await bench.ask('plan.start', { ...wish, near });
      await bench.solver.finish();
      await done;
    }
    const current = await bench.ask('plan.read', { id: 1 });
    expect(bench.solver.jobs.map(({ near }) => near)).toEqual([undefined, current.plan]);
    expect((await bench.ask('shop.read', null)).wayBack.undo).toBe('Plan of 08:00, around the changes');
  });

  it('passes progress on', async () => {
    const bench = await benchWith();
    await bench.ask('plan.start', wish);
    const heard = bench.next('plan.progress');
    const progress = {
      phase: 'improve',
      seconds: 0.5,
      limitSeconds: 1,
      steps: 7,
      cost: null,
      boundTotal: 3,
      boundTonight: 2,
    } as const;
    bench.solver.progress(progress);
    expect(await heard).toEqual(progress);
  });

  it('shows the best so far of the very first plan, and no plan that breaks a rule', async () => {
    const bench = await benchWith();
    await bench.ask('plan.start', wish);
    const told: unknown[] = [];
    bench.services.listen((name, event) => name === 'plan.soFar' && told.push(event));
    await bench.solver.better((plan) => ({ ...plan, cost: { ...plan.cost, total: plan.cost.total - 1 } }));
    expect(told).toEqual([]);
    await bench.solver.better();
    expect(told).toMatchObject([{ id: 0, shop: smallShop(), plan: { shop: 'Small shop' } }]);
    expect(await bench.ask('plan.current', null)).toBeNull();
    const done = bench.next('plan.done');
    await bench.solver.finish();
    await done;
    await bench.ask('plan.start', wish);
    await bench.solver.better();
    expect(told).toHaveLength(1);
  });

  it('is refused while a plan is being made, and so is putting another shop in its place', async () => {
    const bench = await benchWith();
    await bench.ask('plan.start', wish);
    expect(await bench.refused('plan.start', wish)).toMatchObject([{ code: 'planning' }]);
    expect(await bench.refused('shop.reset', { to: 'demo' })).toMatchObject([{ code: 'planning' }]);
    expect(await bench.refused('shop.import', { text: '{}' })).toMatchObject([{ code: 'planning' }]);
    await bench.ask('plan.stop', null);
    expect(bench.solver.stops).toBe(1);
  });

  it('is refused with the faults of the shop, and can be tried again', async () => {
    const bench = await benchWith(smallShop({ pallets: [] }));
    const faults = await bench.refused('plan.start', wish);
    expect(faults.length).toBeGreaterThan(0);
    expect(faults.every((fault) => fault.level === 'error')).toBe(true);
    for (const row of smallShop().pallets) await bench.ask('shop.put', { table: 'pallets', replaces: null, row });
    await bench.ask('plan.start', wish);
  });

  it('never stores or shows a plan that breaks a rule', async () => {
    const bench = await benchWith();
    const failed = bench.next('plan.failed');
    await bench.ask('plan.start', wish);
    await bench.solver.finish((plan) => ({
      ...plan,
      runs: plan.runs.map((run) => ({ ...run, start: run.start + 1 })),
    }));
    expect((await failed).faults).toMatchObject([{ code: 'illegal-plan', say: expect.stringContaining('defect') }]);
    expect(await bench.ask('plan.current', null)).toBeNull();
  });

  it('that crashes says so and leaves the way free for the next', async () => {
    const bench = await benchWith();
    const failed = bench.next('plan.failed');
    await bench.ask('plan.start', wish);
    bench.solver.fail(new Error('out of memory'));
    expect((await failed).faults[0]?.say).toMatch(/out of memory.*Plan again/);
    await bench.ask('plan.start', wish);
  });

  it('marks a plan outdated once the shop has changed, and keeps the shop it was made for', async () => {
    const bench = await benchWith();
    const done = bench.next('plan.done');
    await bench.ask('plan.start', wish);
    await bench.solver.finish();
    await done;
    await bench.ask('shop.remove', { table: 'jobs', id: 'B' });
    expect(await bench.ask('plan.current', null)).toMatchObject({ outdated: true, shop: smallShop() });
  });

  it('has no plan to read before the first', async () => {
    const bench = await benchWith();
    expect(await bench.ask('plan.current', null)).toBeNull();
    expect(await bench.refused('plan.read', { id: 1 })).toMatchObject([{ code: 'no-such-plan' }]);
  });
});
