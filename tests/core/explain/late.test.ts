import { describe, expect, it } from 'vitest';
import { lateJobs } from '../../../core/explain';
import type { Plan, Shop, ShopInput } from '../../../core/shop';
import { at, DAILY, jobOf, type OperationInput, personOf, planOf, shopOf } from '../measure/fixture';

// Own instances throughout: Anna is in the shop from 06:00 to 14:00.

function op(id: string, machine: string, cycle: number, parts: Partial<OperationInput> = {}): OperationInput {
  return { id, machines: [{ machine, cycle }], fixture: 'F', load: 20, unload: 10, ...parts };
}

function shopWith(parts: Partial<ShopInput>): Shop {
  return shopOf({
    people: [personOf('Anna', '06:00', '14:00')],
    walking: { usual: 0 },
    machines: [
      { id: 'M1', kind: 'mill', places: 3 },
      { id: 'M2', kind: 'mill', places: 1 },
    ],
    pallets: ['P1', 'P2', 'P3'].map((id) => ({ id, fixture: 'F' })),
    ...parts,
  });
}

function whyOf(shop: Shop, plan: Plan, job: string): string | undefined {
  return lateJobs(shop, plan).find((late) => late.job === job)?.why;
}

describe('a late job', () => {
  it('is one whose last run is off a minute after it is due, not one that is off at its due time', () => {
    const plan = planOf([
      {
        run: 'A/10/1',
        machine: 'M1',
        pallet: 'P1',
        load: ['Anna', '06:00', '06:20'],
        cut: ['06:20', '07:20'],
        unload: ['Anna', '07:20', '07:30'],
      },
    ]);
    const due = (time: string) => shopWith({ jobs: [jobOf('A', [op('10', 'M1', 60)], { due: `2026-11-30T${time}` })] });
    expect(lateJobs(due('07:30'), plan)).toEqual([]);
    expect(lateJobs(due('07:29'), plan)).toMatchObject([
      { job: 'A', due: at('07:29'), finish: at('07:30'), lateBy: 1 },
    ]);
  });

  it('comes before one that costs less', () => {
    const jobs = ['A', 'B'].map((id, i) => jobOf(id, [op('10', 'M1', 60)], { due: '2026-11-30T06:00', weight: 1 + i }));
    const plan = planOf([
      {
        run: 'A/10/1',
        machine: 'M1',
        pallet: 'P1',
        load: ['Anna', '06:00', '06:20'],
        cut: ['07:20', '08:20'],
        unload: ['Anna', '08:20', '08:30'],
      },
      {
        run: 'B/10/1',
        machine: 'M1',
        pallet: 'P2',
        load: ['Anna', '06:20', '06:40'],
        cut: ['06:20', '07:20'],
        unload: ['Anna', '07:20', '07:30'],
      },
    ]);
    expect(lateJobs(shopWith({ jobs }), plan).map((late) => late.job)).toEqual(['B', 'A']);
  });

  it('is none of which nothing is left to do', () => {
    const shop = shopWith({
      jobs: [jobOf('A', [op('10', 'M1', 60)], { due: '2026-11-29T12:00', overdue: true })],
      floor: [{ run: 'A/10/1', state: 'done', end: '2026-11-30T05:00' }],
    });
    expect(lateJobs(shop, planOf([]))).toEqual([]);
  });

  it('with a run left out ends after the horizon', () => {
    const jobs = [jobOf('A', [op('10', 'M1', 60)], { due: '2026-12-01T12:00' })];
    const plan = planOf([], { left: [{ run: 'A/10/1', why: 'every pallet with fixture F is taken.' }] });
    expect(lateJobs(shopWith({ jobs }), plan)).toEqual([
      {
        job: 'A',
        due: at('1 12:00'),
        finish: null,
        // Two days' horizon and its hour of cutting: the way the plan's cost counts it.
        lateBy: at('2 01:00') - at('1 12:00'),
        why: 'Op 10 does not fit before the end of the plan: every pallet with fixture F is taken.',
      },
    ]);
  });
});

describe('a route too long for its due time', () => {
  const late = { due: '2026-12-01T12:00' };

  it('says until when it takes with these hours', () => {
    // Loaded 06:00 to 06:20, cut to 14:20, taken off Tue 06:00 to 06:10, loaded to 06:30, cut to 12:30, off 12:40.
    const jobs = [jobOf('A', [op('10', 'M1', 480), op('20', 'M1', 360)], late)];
    const plan = planOf([
      {
        run: 'A/10/1',
        machine: 'M1',
        pallet: 'P1',
        load: ['Anna', '06:00', '06:20'],
        cut: ['06:20', '14:20'],
        unload: ['Anna', '1 06:00', '1 06:10'],
      },
      {
        run: 'A/20/1',
        machine: 'M1',
        pallet: 'P1',
        load: ['Anna', '1 07:00', '1 07:20'],
        cut: ['1 07:20', '1 13:20'],
        unload: ['Anna', '1 13:20', '1 13:30'],
      },
    ]);
    expect(whyOf(shopWith({ jobs }), plan, 'A')).toBe('Its route alone takes until Tue 12:40 with these hours.');
  });

  it('takes the fastest machine, its hours and the first-piece check into account', () => {
    const shop = shopWith({
      machines: [
        { id: 'M1', kind: 'mill', places: 3 },
        { id: 'M2', kind: 'mill', hours: [DAILY('08:00', '20:00')] },
      ],
      jobs: [
        jobOf(
          'A',
          [
            op('10', 'M1', 900, {
              machines: [
                { machine: 'M1', cycle: 900 },
                { machine: 'M2', cycle: 480 },
              ],
              firstPiece: { after: 300, minutes: 30 },
            }),
          ],
          { due: '2026-11-30T16:00' },
        ),
      ],
    });
    // On M2: loaded from 07:40 only if the table were open, so 08:00 to 08:20; held at 13:20, checked to 13:50, cut to
    // 16:50, taken off on Tuesday when M2 opens, 08:00 to 08:10. On M1: held 11:20 to 11:50, cut to 21:50, off Tue 06:10.
    const plan = planOf([
      {
        run: 'A/10/1',
        machine: 'M1',
        pallet: 'P1',
        load: ['Anna', '06:00', '06:20'],
        cut: ['06:20', '21:50'],
        check: ['Anna', '11:20', '11:50'],
        unload: ['Anna', '1 06:00', '1 06:10'],
      },
    ]);
    expect(whyOf(shop, plan, 'A')).toBe('Its route alone takes until Tue 06:10 with these hours.');
  });

  it('says so of a job that was due before the plan begins', () => {
    const jobs = [jobOf('A', [op('10', 'M1', 60)], { due: '2026-11-29T12:00', overdue: true })];
    const plan = planOf([
      {
        run: 'A/10/1',
        machine: 'M1',
        pallet: 'P1',
        load: ['Anna', '06:00', '06:20'],
        cut: ['06:20', '07:20'],
        unload: ['Anna', '07:20', '07:30'],
      },
    ]);
    expect(whyOf(shopWith({ jobs }), plan, 'A')).toBe(
      'It was due before this plan begins; its route alone takes until Mon 07:30.',
    );
  });

  it('says so where it can never end', () => {
    const jobs = [jobOf('A', [op('10', 'M1', 60, { skill: 'grind' })], late)];
    const plan = planOf([], { left: [{ run: 'A/10/1', why: 'nobody can.' }] });
    expect(whyOf(shopWith({ jobs }), plan, 'A')).toBe(
      'Its route alone cannot end before the end of the plan with these hours.',
    );
  });
});

describe('the longest wait of a route', () => {
  const due = { due: '2026-11-30T09:00' };
  const ahead = {
    run: 'B/10/1',
    machine: 'M1',
    pallet: 'P2',
    load: ['Anna', '06:00', '06:20'],
    cut: ['06:20', '11:20'],
    unload: ['Anna', '11:20', '11:30'],
  } as const;

  it('names the machine that cuts another job first', () => {
    const jobs = [jobOf('A', [op('10', 'M1', 60)], due), jobOf('B', [op('10', 'M1', 300)])];
    const plan = planOf([
      ahead,
      {
        run: 'A/10/1',
        machine: 'M1',
        pallet: 'P1',
        load: ['Anna', '06:20', '06:40'],
        cut: ['11:20', '12:20'],
        unload: ['Anna', '12:20', '12:30'],
      },
    ]);
    expect(whyOf(shopWith({ jobs }), plan, 'A')).toBe('Op 10 waits 4 h 40 min for M1, behind B.');
  });

  it('names the place, the pallet and the hand alike', () => {
    const jobs = [jobOf('A', [op('10', 'M2', 60)], due), jobOf('B', [op('10', 'M2', 300)])];
    const plan = planOf([
      { ...ahead, machine: 'M2' },
      {
        run: 'A/10/1',
        machine: 'M2',
        pallet: 'P1',
        load: ['Anna', '11:30', '11:50'],
        cut: ['11:50', '12:50'],
        unload: ['Anna', '12:50', '13:00'],
      },
    ]);
    expect(whyOf(shopWith({ jobs }), plan, 'A')).toBe('Op 10 waits 5 h 30 min for a place at M2, behind B.');

    const onePallet = { pallets: [{ id: 'P1', fixture: 'F' }] };
    const roomy = [jobOf('A', [op('10', 'M1', 60)], due), jobOf('B', [op('10', 'M2', 300)])];
    const shared = planOf([
      { ...ahead, machine: 'M2', pallet: 'P1' },
      {
        run: 'A/10/1',
        machine: 'M1',
        pallet: 'P1',
        load: ['Anna', '11:30', '11:50'],
        cut: ['11:50', '12:50'],
        unload: ['Anna', '12:50', '13:00'],
      },
    ]);
    expect(whyOf(shopWith({ jobs: roomy, ...onePallet }), shared, 'A')).toBe(
      'Op 10 waits 5 h 30 min for a pallet with fixture F, behind B.',
    );

    const byHand = [
      jobOf('A', [op('10', 'M1', 60)], due),
      jobOf('B', [{ id: '10', machines: [{ machine: 'B1', cycle: 240 }] }]),
    ];
    const machines: ShopInput['machines'] = [
      { id: 'M1', kind: 'mill', places: 3 },
      { id: 'B1', kind: 'bench' },
    ];
    const busy = planOf([
      { run: 'B/10/1', machine: 'B1', cut: ['06:00', '10:00'], work: ['Anna', '06:00', '10:00'] },
      {
        run: 'A/10/1',
        machine: 'M1',
        pallet: 'P1',
        load: ['Anna', '10:00', '10:20'],
        cut: ['10:20', '11:20'],
        unload: ['Anna', '11:20', '11:30'],
      },
    ]);
    expect(whyOf(shopWith({ jobs: byHand, machines }), busy, 'A')).toBe(
      'Op 10 waits 4 h for a hand to load it, behind B.',
    );
  });

  it('names the night in which nobody takes it off', () => {
    const jobs = [jobOf('A', [op('10', 'M1', 60)], { due: '2026-11-30T16:00' })];
    const plan = planOf(
      [
        {
          run: 'A/10/1',
          machine: 'M1',
          pallet: 'P1',
          load: ['Anna', '13:40', '14:00'],
          cut: ['14:00', '15:00'],
          unload: ['Anna', '1 06:00', '1 06:10'],
        },
      ],
      { now: '13:40' },
    );
    expect(whyOf(shopWith({ jobs: [{ ...jobs[0]!, due: '2026-12-01T06:05' }] }), plan, 'A')).toBe(
      'Its route alone takes until Tue 06:10 with these hours.',
    );
    const later = structuredClone(plan);
    later.now = at('06:00');
    expect(whyOf(shopWith({ jobs }), later, 'A')).toBe(
      'Op 10 waits 15 h for a hand to take it off while nobody who can is here.',
    );
  });

  it('names the run among several, and other runs of the same job', () => {
    const jobs = [jobOf('A', [op('10', 'M1', 300)], { quantity: 2, due: '2026-11-30T12:00' })];
    const plan = planOf([
      { ...ahead, run: 'A/10/1' },
      {
        run: 'A/10/2',
        machine: 'M1',
        pallet: 'P1',
        load: ['Anna', '06:20', '06:40'],
        cut: ['11:20', '16:20'],
        unload: ['Anna', '1 06:00', '1 06:10'],
      },
    ]);
    // Taken off only the next morning: longer than the wait for the machine, so that is what is told.
    expect(whyOf(shopWith({ jobs }), plan, 'A')).toBe(
      'Op 10 run 2 waits 13 h 40 min for a hand to take it off while nobody who can is here.',
    );
    const ben = shopWith({ jobs, people: [personOf('Anna', '06:00', '18:00')] });
    const sooner = structuredClone(plan);
    sooner.runs[1]!.unload = { person: 'Anna', start: at('16:20'), end: at('16:30') };
    expect(whyOf(ben, sooner, 'A')).toBe('Op 10 run 2 waits 4 h 40 min for M1, behind other runs of its own.');
  });

  it('owns up where nothing stood in the way', () => {
    const jobs = [jobOf('A', [op('10', 'M1', 60)], due)];
    const plan = planOf([
      {
        run: 'A/10/1',
        machine: 'M1',
        pallet: 'P1',
        load: ['Anna', '10:00', '10:20'],
        cut: ['10:20', '11:20'],
        unload: ['Anna', '11:20', '11:30'],
      },
    ]);
    expect(whyOf(shopWith({ jobs }), plan, 'A')).toBe('Op 10 waits 4 h: the plan puts other work first.');
  });
});
