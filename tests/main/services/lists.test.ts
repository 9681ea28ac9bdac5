import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { type ListName, PLAN_LISTS } from '../../../core/exchange';
import { type Bench, benchWith } from '../../support/services-for-test';
import { smallShop } from '../../support/small-shop';

async function planned(): Promise<Bench> {
  const floor = [{ run: 'A/10/1', state: 'locked' as const, machine: 'M1', pallet: 'P1' }];
  const bench = await benchWith(smallShop({ floor }));
  const done = bench.next('plan.done');
  await bench.ask('plan.start', { seconds: 1, seed: 1, near: false });
  await bench.solver.finish();
  await done;
  return bench;
}

/** The list's rows as records by its header. */
async function records(bench: Bench, list: ListName): Promise<Record<string, string>[]> {
  const { fileName, text } = await bench.ask('list.export', { list });
  expect(fileName).toBe(`small-shop-${list}.csv`);
  return Papa.parse<Record<string, string>>(text.replace(/^\uFEFF/, ''), { header: true, skipEmptyLines: true }).data;
}

describe('lists as CSV', () => {
  it('of the shop hold a row for each record, of jobs one for each operation', async () => {
    const bench = await benchWith();
    expect((await records(bench, 'pallets')).map(({ id, fixture }) => [id, fixture])).toEqual([
      ['P1', 'vice'],
      ['P2', 'vice'],
    ]);
    const [job] = await records(bench, 'jobs');
    expect(job).toMatchObject({ id: 'A', due: '2026-11-26 12:00', op: '10', machine: 'M1', cycle: '120' });
  });

  it('of the floor name what stands there', async () => {
    const bench = await planned();
    expect(await records(bench, 'floor')).toMatchObject([{ run: 'A/10/1', state: 'locked', machine: 'M1' }]);
  });

  it('of a plan hold its runs, its attendances and its rounds as they are reported', async () => {
    const bench = await planned();
    const view = await bench.ask('plan.current', null);
    const runs = await records(bench, 'runs');
    const names = [...(view?.plan.runs ?? []), ...(view?.plan.left ?? [])].map(({ run }) => run);
    expect(runs.map(({ run }) => run)).toEqual(names);
    expect(names).toContain('A/10/1');
    const rounds = view?.report.rounds ?? [];
    const attendances = await records(bench, 'attendances');
    expect(attendances.map(({ words }) => words)).toEqual(rounds.flatMap(({ stops }) => stops.map(({ say }) => say)));
    const listed = await records(bench, 'rounds');
    expect(listed.map(({ stops }) => Number(stops))).toEqual(rounds.map(({ stops }) => stops.length));
    expect(attendances.length).toBeGreaterThan(0);
    for (const { from } of [...attendances, ...listed]) expect(from).toMatch(/^2026-11-2\d \d\d:\d\d$/);
  });

  it('of hours by shift add up to the length of each shift', async () => {
    const rows = await records(await planned(), 'shift-hours');
    expect(rows.length).toBeGreaterThan(0);
    for (const row of rows) {
      const parts = ['cut attended', 'cut unattended', 'hand work', 'waiting', 'dry', 'off', 'nothing due'];
      expect(parts.reduce((sum, part) => sum + Number(row[part]), 0)).toBe(Number(row.minutes));
    }
  });

  it('of a plan are refused before there is one, and a list nobody knows always', async () => {
    const { refused } = await benchWith();
    for (const list of PLAN_LISTS) expect(await refused('list.export', { list })).toMatchObject([{ code: 'no-plan' }]);
    expect(await refused('list.export', { list: 'walls' })).toMatchObject([{ code: 'bad-input' }]);
  });
});
