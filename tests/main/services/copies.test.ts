import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { CallName, PlanView, Returned, Sent, ShopView } from '../../../core/contract';
import { type Bench, benchWith } from '../../support/services-for-test';

const wish = { seconds: 1, seed: 1 };

async function planned(): Promise<Bench> {
  const bench = await benchWith();
  const done = bench.next('plan.done');
  await bench.ask('plan.start', { ...wish, near: false });
  await bench.solver.finish();
  await done;
  return bench;
}

async function inCopy<K extends CallName>(bench: Bench, copy: string, call: K, sent: Sent<K>): Promise<Returned<K>> {
  return (await bench.ask('copy.call', { copy, call, sent })) as Returned<K>;
}

const morePlaces = async (bench: Bench, copy: string): Promise<ShopView> => {
  const { shop } = await inCopy(bench, copy, 'shop.read', null);
  return inCopy(bench, copy, 'shop.put', {
    table: 'machines',
    replaces: 'M1',
    row: { ...shop.machines[0], places: 6 },
  });
};

async function planCopy(bench: Bench): Promise<void> {
  await bench.ask('copy.plan', { ids: ['1'], ...wish });
  await expect.poll(() => bench.solver.busy).toBe(true);
  await bench.solver.finish();
  await expect.poll(async () => (await bench.ask('copy.list', null))[0]?.planning).toBe(false);
}

describe('a named copy of the shop', () => {
  it('is the shop with its plan, until something is changed in it', async () => {
    const bench = await planned();
    const [copy] = await bench.ask('copy.make', { name: 'More places' });
    expect(copy).toMatchObject({ id: '1', name: 'More places', differences: [], plan: { outdated: false } });
    const [changed] = await morePlaces(bench, '1').then(() => bench.ask('copy.list', null));
    expect(changed).toMatchObject({ differences: ['Machine M1: places 4 → 6'], plan: { outdated: true } });
    expect((await bench.ask('shop.read', null)).shop.machines[0]?.places).toBe(4);
  });

  it('has undo of its own and none of the shop’s', async () => {
    const bench = await planned();
    await bench.ask('copy.make', { name: 'One' });
    expect((await inCopy(bench, '1', 'shop.read', null)).wayBack).toEqual({ undo: null, redo: null });
    await morePlaces(bench, '1');
    const { shop } = await inCopy(bench, '1', 'change.undo', null);
    expect(shop.machines[0]?.places).toBe(4);
  });

  it('is planned and compared with the shop', async () => {
    const bench = await planned();
    await bench.ask('copy.make', { name: 'One' });
    await morePlaces(bench, '1');
    const said = bench.next('copy.changed');
    await planCopy(bench);
    expect(await said).toEqual({ id: '1' });
    expect(await bench.ask('copy.list', null)).toMatchObject([{ planning: false, plan: { outdated: false } }]);
    const compared = await bench.ask('plan.compare', {
      before: { copy: null, plan: null },
      after: { copy: '1', plan: null },
    });
    expect(compared.comparison.figures.map(({ key }) => key)).toContain('tonight');
    expect(compared.say.length).toBeGreaterThan(0);
  });

  it('is adopted as one change, with its plan where the shop is then the same', async () => {
    const bench = await planned();
    await bench.ask('copy.make', { name: 'More places' });
    await morePlaces(bench, '1');
    await planCopy(bench);
    const before = (await bench.ask('plan.current', null)) as PlanView;
    const adopted = await bench.ask('copy.adopt', { id: '1' });
    expect(adopted.shop.machines[0]?.places).toBe(6);
    expect(adopted.wayBack.undo).toBe('Adopt “More places”');
    const after = (await bench.ask('plan.current', null)) as PlanView;
    expect(after.id).not.toBe(before.id);
    expect(after.outdated).toBe(false);
    await bench.ask('change.undo', null);
    expect(await bench.ask('plan.current', null)).toEqual(before);
  });

  it('is adopted beside what was changed in the shop meanwhile, whose plan then is outdated', async () => {
    const bench = await planned();
    await bench.ask('copy.make', { name: 'More places' });
    await morePlaces(bench, '1');
    await bench.ask('shop.put', { table: 'pallets', replaces: null, row: { id: 'P3', fixture: 'vice' } });
    const { shop } = await bench.ask('copy.adopt', { id: '1' });
    expect(shop.machines[0]?.places).toBe(6);
    expect(shop.pallets.map(({ id }) => id)).toEqual(['P1', 'P2', 'P3']);
    expect(await bench.ask('plan.current', null)).toMatchObject({ outdated: true });
  });

  it('is discarded into the backups', async () => {
    const bench = await planned();
    await bench.ask('copy.make', { name: 'One' });
    await bench.ask('copy.make', { name: 'Two' });
    expect((await bench.ask('copy.discard', { id: '1' })).map(({ name }) => name)).toEqual(['Two']);
    expect(existsSync(join(bench.folder, 'copies', '1.sqlite'))).toBe(false);
    expect(readdirSync(join(bench.folder, 'backups'))).toContain('shop-2026-11-25T0800-copy.sqlite');
    expect(await bench.refused('copy.call', { copy: '1', call: 'shop.read', sent: null })).toMatchObject([
      { code: 'no-such-copy' },
    ]);
  });

  it('is not copied again, and is named by digits only', async () => {
    const bench = await planned();
    await bench.ask('copy.make', { name: 'One' });
    const nested = { copy: '1', call: 'copy.make', sent: { name: 'Two' } };
    expect(await bench.refused('copy.call', nested)).toMatchObject([{ code: 'not-of-a-copy' }]);
    const outside = { copy: '../shop', call: 'shop.read', sent: null };
    expect(await bench.refused('copy.call', outside)).toMatchObject([{ code: 'bad-input' }]);
  });
});
