import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readPlan, roundsOf } from '../../../core/measure';
import type { ShopInput } from '../../../core/shop';
import { at, jobOf, personOf, planOf, shopOf } from './fixture';

// Own instances throughout.

const mill = (id: string, parts = {}) => ({ id, kind: 'mill' as const, places: 4, ...parts });
const op = (id: string, machine = 'M1', parts = {}) => ({
  id,
  machines: [{ machine, cycle: 60 }],
  fixture: 'F',
  load: 10,
  unload: 10,
  ...parts,
});
const pallets = ['P1', 'P2', 'P3'].map((id) => ({ id, fixture: 'F' }));

function shopWith(parts: Partial<ShopInput>) {
  return shopOf({
    people: [personOf('Anna', '06:00', '14:00', [{ from: '10:00', to: '10:30' }]), personOf('Ben', '06:00', '22:00')],
    machines: [mill('M1'), mill('M2')],
    pallets,
    ...parts,
  });
}

describe('rounds', () => {
  const shop = shopWith({ walking: { usual: 2 }, jobs: [jobOf('A', [op('10')]), jobOf('B', [op('10', 'M2')])] });
  const twoLoads = (second: [string, string]) =>
    planOf([
      { run: 'A/10/1', machine: 'M1', pallet: 'P1', load: ['Anna', '06:00', '06:10'], cut: ['06:10', '07:10'] },
      { run: 'B/10/1', machine: 'M2', pallet: 'P2', load: ['Anna', ...second], cut: ['09:00', '10:00'] },
    ]);

  it('is one where the walk and ten minutes lie between two attendances', () => {
    const rounds = roundsOf(shop, twoLoads(['06:22', '06:32']));
    expect(rounds.map((r) => r.stops.length)).toEqual([2]);
    expect(rounds[0]).toMatchObject({ person: 'Anna', start: at('06:00'), end: at('06:32') });
  });

  it('is two where a minute more lies between them', () => {
    const rounds = roundsOf(shop, twoLoads(['06:23', '06:33']));
    expect(rounds.map((r) => [r.start, r.end])).toEqual([
      [at('06:00'), at('06:10')],
      [at('06:23'), at('06:33')],
    ]);
  });

  it('knows a pair of spots with a walk of its own, in either direction', () => {
    const far = shopWith({
      walking: { usual: 2, between: [{ from: 'M2', to: 'M1', minutes: 15 }] },
      jobs: [jobOf('A', [op('10')]), jobOf('B', [op('10', 'M2')])],
    });
    expect(roundsOf(far, twoLoads(['06:35', '06:45']))).toHaveLength(1);
    expect(roundsOf(far, twoLoads(['06:36', '06:46']))).toHaveLength(2);
  });

  it('needs no walk between two machines of one cell', () => {
    const cell = shopWith({
      walking: { usual: 2 },
      cells: [{ id: 'C', places: 6, stations: 1 }],
      machines: [mill('M1', { cell: 'C' }), mill('M2', { cell: 'C' })],
      jobs: [jobOf('A', [op('10')]), jobOf('B', [op('10', 'M2')])],
    });
    expect(roundsOf(cell, twoLoads(['06:20', '06:30']))).toHaveLength(1);
    expect(roundsOf(cell, twoLoads(['06:21', '06:31']))).toHaveLength(2);
  });

  it('says what to do at each stop', () => {
    const shop = shopWith({
      machines: [mill('M1'), { id: 'B1', kind: 'bench' }],
      jobs: [
        jobOf('A', [op('10', 'M1', { perPallet: 4, firstPiece: { after: 20, minutes: 15 } })], { quantity: 5 }),
        jobOf('B', [{ id: '30', machines: [{ machine: 'B1', cycle: 30 }] }]),
      ],
    });
    const plan = planOf([
      {
        run: 'A/10/1',
        machine: 'M1',
        pallet: 'P1',
        load: ['Anna', '06:00', '06:10'],
        cut: ['06:10', '07:25'],
        check: ['Anna', '06:30', '06:45'],
        unload: ['Anna', '07:25', '07:35'],
      },
      { run: 'A/10/2', machine: 'M1', pallet: 'P2', load: ['Anna', '07:36', '07:46'], cut: ['07:46', '08:01'] },
      { run: 'B/30/1', machine: 'B1', cut: ['08:00', '08:30'], work: ['Anna', '08:00', '08:30'] },
    ]);
    expect(roundsOf(shop, plan).flatMap((r) => r.stops.map((s) => s.say))).toEqual([
      'Load P1 for A op 10 (4 parts)',
      'Check first piece of A op 10',
      'Unload P1 with A op 10 (4 parts)',
      'Load P2 for A op 10 (1 part)',
      'Work on B op 30 (1 part)',
    ]);
  });
});

describe('the latest begin', () => {
  const load = (cut: [string, string], parts = {}) => ({
    run: 'A/10/1',
    machine: 'M1',
    pallet: 'P1',
    load: ['Anna', '06:00', '06:10'] as const,
    cut,
    ...parts,
  });
  const latestOf = (shop: ReturnType<typeof shopOf>, plan: ReturnType<typeof planOf>, run: string, role: string) =>
    roundsOf(shop, plan)
      .flatMap((r) => r.stops)
      .find((s) => s.run === run && s.role === role)?.latest;

  it('of a load is its length before its own run starts', () => {
    const shop = shopWith({ jobs: [jobOf('A', [op('10')])] });
    expect(latestOf(shop, planOf([load(['08:00', '09:00'])]), 'A/10/1', 'load')).toBe(at('07:50'));
  });

  it('leaves the walk to the next attendance of the same person', () => {
    const shop = shopWith({ walking: { usual: 3 }, jobs: [jobOf('A', [op('10')]), jobOf('B', [op('10', 'M2')])] });
    const next = { run: 'B/10/1', machine: 'M2', pallet: 'P2', cut: ['07:10', '08:10'] as const };
    const same = planOf([load(['08:00', '09:00']), { ...next, load: ['Anna', '07:00', '07:10'] }]);
    const other = planOf([load(['08:00', '09:00']), { ...next, load: ['Ben', '07:00', '07:10'] }]);
    expect(latestOf(shop, same, 'A/10/1', 'load')).toBe(at('06:47'));
    expect(latestOf(shop, other, 'A/10/1', 'load')).toBe(at('07:50'));
  });

  it('stays before the break', () => {
    const shop = shopWith({ jobs: [jobOf('A', [op('10')])] });
    expect(latestOf(shop, planOf([load(['11:00', '12:00'])]), 'A/10/1', 'load')).toBe(at('09:50'));
  });

  it('leaves the only load station to the next load', () => {
    const jobs = [jobOf('A', [op('10')]), jobOf('B', [op('10')])];
    const plan = planOf([
      load(['09:00', '10:00']),
      { run: 'B/10/1', machine: 'M1', pallet: 'P2', load: ['Ben', '07:00', '07:10'], cut: ['07:10', '08:10'] },
    ]);
    expect(latestOf(shopWith({ jobs }), plan, 'A/10/1', 'load')).toBe(at('06:50'));
    const two = shopWith({ machines: [mill('M1', { stations: 2 })], jobs });
    expect(latestOf(two, plan, 'A/10/1', 'load')).toBe(at('08:50'));
  });

  it('of a load on the table is its planned start, for the machine waits for it', () => {
    const shop = shopWith({ machines: [mill('M1', { places: 0 })], jobs: [jobOf('A', [op('10')])] });
    expect(latestOf(shop, planOf([load(['06:10', '07:10'])]), 'A/10/1', 'load')).toBe(at('06:00'));
  });

  it('of a check is its planned start, for the machine is held', () => {
    const shop = shopWith({ jobs: [jobOf('A', [op('10', 'M1', { firstPiece: { after: 20, minutes: 15 } })])] });
    const plan = planOf([load(['06:10', '07:25'], { check: ['Anna', '06:30', '06:45'] })]);
    expect(latestOf(shop, plan, 'A/10/1', 'check')).toBe(at('06:30'));
  });

  describe('of taking off', () => {
    const first = load(['06:10', '07:10'], { unload: ['Ben', '07:10', '07:20'] });
    const next = (machine: string, pallet: string, from = '08:00', to = '08:10') => ({
      run: 'B/10/1',
      machine,
      pallet,
      load: ['Anna', from, to] as const,
      cut: ['09:00', '10:00'] as const,
    });

    it('is in time for the next load of its pallet', () => {
      const shop = shopWith({ jobs: [jobOf('A', [op('10')]), jobOf('B', [op('10', 'M2')])] });
      expect(latestOf(shop, planOf([first, next('M2', 'P1')]), 'A/10/1', 'unload')).toBe(at('07:50'));
    });

    it('is in time for the next operation and its lag', () => {
      const shop = shopWith({ jobs: [jobOf('A', [op('10'), op('20', 'M2', { lag: 25 })])] });
      const plan = planOf([first, { ...next('M2', 'P2'), run: 'A/20/1' }]);
      expect(latestOf(shop, plan, 'A/10/1', 'unload')).toBe(at('07:25'));
    });

    it('is in time for the run that needs the last place', () => {
      const jobs = [jobOf('A', [op('10')]), jobOf('B', [op('10')])];
      const plan = planOf([first, next('M1', 'P2')]);
      const one = shopWith({ machines: [mill('M1', { places: 1, stations: 2 })], jobs });
      expect(latestOf(one, plan, 'A/10/1', 'unload')).toBe(at('07:50'));
      const two = shopWith({ machines: [mill('M1', { places: 2, stations: 2 })], jobs });
      expect(latestOf(two, plan, 'A/10/1', 'unload')).toBe(at('21:50'));
    });

    it('is in time for the next load of the table', () => {
      const shop = shopWith({
        machines: [mill('M1', { places: 0 })],
        jobs: [jobOf('A', [op('10')]), jobOf('B', [op('10')])],
      });
      expect(latestOf(shop, planOf([first, next('M1', 'P2')]), 'A/10/1', 'unload')).toBe(at('07:50'));
    });

    it('is in time for the due time of the job', () => {
      const shop = shopWith({ jobs: [jobOf('A', [op('10')], { due: '2026-11-30T09:00' })] });
      expect(latestOf(shop, planOf([first]), 'A/10/1', 'unload')).toBe(at('08:50'));
    });

    it('is its planned start where the job is late already', () => {
      const shop = shopWith({ jobs: [jobOf('A', [op('10')], { due: '2026-11-30T07:00' })] });
      expect(latestOf(shop, planOf([first]), 'A/10/1', 'unload')).toBe(at('07:10'));
    });
  });

  it('is never before the planned start nor beyond what the person is there for, whatever the plan', () => {
    const jobs = ['A', 'B', 'C', 'D'].map((id) => jobOf(id, [op('10'), op('20', 'M2')]));
    const shop = shopWith({ jobs });
    const run = fc.record({
      machine: fc.constantFrom('M1', 'M2'),
      pallet: fc.constantFrom('P1', 'P2', 'P3'),
      who: fc.constantFrom('Anna', 'Ben'),
      load: fc.integer({ min: 0, max: 300 }),
      wait: fc.integer({ min: 0, max: 120 }),
    });
    fc.assert(
      fc.property(fc.array(run, { minLength: 4, maxLength: 4 }), (runs) => {
        const plan = planOf([]);
        plan.runs = runs.map(({ machine, pallet, who, load, wait }, i) => {
          const from = at('06:00') + load;
          const start = from + 10 + wait;
          return {
            run: `${jobs[i]!.id}/10/1`,
            machine,
            pallet,
            load: { person: who, start: from, end: from + 10 },
            start,
            end: start + 60,
            check: null,
            work: null,
            unload: { person: who, start: start + 60, end: start + 70 },
          };
        });
        const able = new Map(readPlan(shop, plan).presences.map((p) => [p.person.id, p.able]));
        for (const { person, stops } of roundsOf(shop, plan)) {
          for (const { start, end, latest } of stops) {
            expect(latest).toBeGreaterThanOrEqual(start);
            const last = latest + end - start;
            const inHours = able.get(person)!.some((i) => i.start <= start && last <= i.end);
            expect(latest === start || inHours).toBe(true);
          }
        }
      }),
      { seed: 7, numRuns: 200 },
    );
  });
});
