import { describe, expect, it } from 'vitest';
import { gapsOf } from '../../../core/explain';
import { at, DAILY, jobOf, planOf } from '../measure/fixture';
import { gapsAt, op, shopWith } from './gaps-fixture';

describe('dry', () => {
  it('is the rest of the night once its places are used up', () => {
    const jobs = ['A', 'B', 'C'].map((id) => jobOf(id, [op('10', 'M1', 300)]));
    const plan = planOf([
      {
        run: 'A/10/1',
        machine: 'M1',
        pallet: 'P1',
        load: ['Anna', '13:20', '13:40'],
        cut: ['13:40', '18:40'],
        unload: ['Anna', '1 06:00', '1 06:10'],
      },
      {
        run: 'B/10/1',
        machine: 'M1',
        pallet: 'P2',
        load: ['Anna', '13:40', '14:00'],
        cut: ['18:40', '23:40'],
        unload: ['Anna', '1 06:10', '1 06:20'],
      },
      { run: 'C/10/1', machine: 'M1', pallet: 'P3', load: ['Anna', '1 06:20', '1 06:40'], cut: ['1 06:40', '1 11:40'] },
    ]);
    expect(gapsAt(shopWith({ jobs }), plan, 'M1', '20:00', '1 06:00')).toEqual([
      [
        at('23:40'),
        at('1 06:00'),
        'dry',
        'Dry until Tue 06:00: its 2 places were used up at 23:40 and nobody is here to load.',
      ],
    ]);
    const roomier = shopWith({ jobs, machines: [{ id: 'M1', kind: 'mill', places: 3 }] });
    expect(gapsAt(roomier, plan, 'M1', '20:00', '1 06:00')).toMatchObject([
      [
        at('23:40'),
        at('1 06:00'),
        'dry',
        'Dry until Tue 06:00: its last load was done at 23:40 and nobody is here to load.',
      ],
    ]);
  });

  it('is a night for which nothing was loaded', () => {
    const plan = planOf([
      { run: 'A/10/1', machine: 'M1', pallet: 'P1', load: ['Anna', '1 06:00', '1 06:20'], cut: ['1 06:20', '1 07:20'] },
    ]);
    expect(gapsAt(shopWith({ jobs: [jobOf('A', [op('10', 'M1', 60)])] }), plan, 'M1', '14:00', '1 06:00')).toEqual([
      [at('14:00'), at('1 06:00'), 'dry', 'Dry until Tue 06:00: nothing is loaded and nobody is here to load.'],
    ]);
  });

  it('is waiting for the operation before, by name, and for the lag after it', () => {
    const jobs = [jobOf('A', [op('10', 'M1', 60), op('20', 'M2', 60, { lag: 30 })])];
    const first = {
      run: 'A/10/1',
      machine: 'M1',
      pallet: 'P1',
      load: ['Anna', '06:00', '06:20'],
      cut: ['06:20', '07:20'],
      unload: ['Anna', '07:20', '07:30'],
    } as const;
    const second = {
      run: 'A/20/1',
      machine: 'M2',
      pallet: 'P2',
      load: ['Anna', '08:00', '08:20'],
      cut: ['08:20', '09:20'],
    } as const;
    expect(gapsAt(shopWith({ jobs }), planOf([first, second]), 'M2', '06:00', '08:20')).toEqual([
      [at('06:00'), at('08:00'), 'dry', 'Dry until Mon 08:00: A op 20 waits 30 min after op 10, until 08:00.'],
      [at('08:00'), at('08:20'), 'hand', 'Waits for a hand until Mon 08:20: P2 is being loaded for A op 20.'],
    ]);
    const noLag = shopWith({ jobs: [jobOf('A', [op('10', 'M1', 60), op('20', 'M2', 60)])] });
    const soon = { ...second, load: ['Anna', '07:30', '07:50'], cut: ['07:50', '08:50'] } as const;
    expect(gapsAt(noLag, planOf([first, soon]), 'M2', '06:00', '07:30')).toEqual([
      [at('06:00'), at('07:30'), 'dry', 'Dry until Mon 07:30: A op 20 waits for op 10, which is off M1 at 07:30.'],
    ]);
  });

  it('is waiting for the release of a job', () => {
    const shop = shopWith({ jobs: [jobOf('A', [op('10', 'M1', 60)], { release: '2026-11-30T09:00' })] });
    const plan = planOf([
      { run: 'A/10/1', machine: 'M1', pallet: 'P1', load: ['Anna', '09:00', '09:20'], cut: ['09:20', '10:20'] },
    ]);
    expect(gapsAt(shop, plan, 'M1', '06:00', '09:00')).toEqual([
      [at('06:00'), at('09:00'), 'dry', 'Dry until Mon 09:00: A is released at 09:00.'],
    ]);
  });

  it('is waiting for a pallet, naming what it is with', () => {
    const shop = shopWith({
      pallets: [{ id: 'P1', fixture: 'F' }],
      jobs: [jobOf('A', [op('10', 'M1', 60)]), jobOf('B', [op('10', 'M2', 60)])],
    });
    const plan = planOf([
      {
        run: 'A/10/1',
        machine: 'M1',
        pallet: 'P1',
        load: ['Anna', '06:00', '06:20'],
        cut: ['06:20', '07:20'],
        unload: ['Anna', '07:20', '07:30'],
      },
      { run: 'B/10/1', machine: 'M2', pallet: 'P1', load: ['Anna', '07:30', '07:50'], cut: ['07:50', '08:50'] },
    ]);
    expect(gapsAt(shop, plan, 'M2', '06:00', '07:30')).toEqual([
      [
        at('06:00'),
        at('07:30'),
        'dry',
        'Dry until Mon 07:30: B op 10 waits for a pallet with fixture F, and the only one is in use; P1 is with A op 10.',
      ],
    ]);
  });

  it('is waiting for a place while all are held by work still to be cut, in a cell too', () => {
    const shop = shopWith({
      cells: [{ id: 'C', places: 1 }],
      machines: ['M1', 'M2'].map((id) => ({ id, kind: 'mill' as const, cell: 'C' })),
      jobs: [jobOf('A', [op('10', 'M1', 60)]), jobOf('B', [op('10', 'M2', 60)])],
    });
    const plan = planOf([
      {
        run: 'A/10/1',
        machine: 'M1',
        pallet: 'P1',
        load: ['Anna', '06:00', '06:20'],
        cut: ['06:20', '09:20'],
        unload: ['Anna', '09:20', '09:30'],
      },
      { run: 'B/10/1', machine: 'M2', pallet: 'P2', load: ['Anna', '09:30', '09:50'], cut: ['09:50', '10:50'] },
    ]);
    expect(gapsAt(shop, plan, 'M2', '06:00', '09:50')).toEqual([
      [
        at('06:00'),
        at('09:20'),
        'dry',
        'Dry until Mon 09:20: the only place of cell C is held by work still to be cut.',
      ],
      [at('09:20'), at('09:50'), 'hand', 'Waits for a hand until Mon 09:50: P2 is being loaded for B op 10.'],
    ]);
  });

  it('is time too short for any work before it goes off', () => {
    const shop = shopWith({
      machines: [{ id: 'M1', kind: 'mill', hours: [DAILY('06:00', '13:00')] }],
      jobs: [jobOf('A', [op('10', 'M1', 300)])],
    });
    const plan = planOf(
      [
        {
          run: 'A/10/1',
          machine: 'M1',
          pallet: 'P1',
          load: ['Anna', '1 06:00', '1 06:20'],
          cut: ['1 06:20', '1 11:20'],
        },
      ],
      { now: '08:00' },
    );
    expect(gapsAt(shop, plan, 'M1', '08:00', '13:00')).toEqual([
      [at('08:00'), at('13:00'), 'dry', 'Dry until Mon 13:00: A op 10 does not fit before it is off at 13:00.'],
    ]);
  });

  it('is waiting for the start a run is locked to', () => {
    const shop = shopWith({
      jobs: [jobOf('A', [op('10', 'M1', 60, { load: 0 })])],
      floor: [{ run: 'A/10/1', state: 'locked', start: '2026-11-30T09:00' }],
    });
    const plan = planOf([{ run: 'A/10/1', machine: 'M1', pallet: 'P1', cut: ['09:00', '10:00'] }]);
    expect(gapsAt(shop, plan, 'M1', '06:00', '09:00')).toEqual([
      [at('06:00'), at('09:00'), 'dry', 'Dry until Mon 09:00: A op 10 is locked to start at 09:00.'],
    ]);
  });

  it('is never nothing due while work it could do is left out', () => {
    const shop = shopWith({ jobs: [jobOf('A', [op('10', 'M1', 60)])] });
    const plan = planOf([], { left: [{ run: 'A/10/1', why: 'No room before the horizon.' }] });
    const gaps = gapsOf(shop, plan).get('M1')!;
    expect(gaps.map((g) => g.reason)).not.toContain('nothing-due');
    expect(gaps[0]!.say).toContain('A op 10 is left out: No room before the horizon.');
  });
});

describe('nothing due', () => {
  const shop = shopWith({
    jobs: [
      jobOf('A', [
        op('10', 'M1', 60),
        {
          ...op('20', 'M1', 60),
          machines: [
            { machine: 'M1', cycle: 60 },
            { machine: 'M2', cycle: 60 },
          ],
        },
      ]),
    ],
  });
  const plan = planOf([
    {
      run: 'A/10/1',
      machine: 'M1',
      pallet: 'P1',
      load: ['Anna', '06:00', '06:20'],
      cut: ['06:20', '07:20'],
      unload: ['Anna', '07:20', '07:30'],
    },
    {
      run: 'A/20/1',
      machine: 'M1',
      pallet: 'P2',
      load: ['Anna', '08:00', '08:20'],
      cut: ['08:20', '09:20'],
      unload: ['Anna', '09:20', '09:30'],
    },
  ]);

  it('begins when the last work a machine could do is put on elsewhere', () => {
    expect(gapsAt(shop, plan, 'M2', '06:00', '08:00')).toEqual([
      [at('06:00'), at('08:00'), 'dry', 'Dry until Mon 08:00: the plan keeps A op 20 for M1 at 08:00.'],
    ]);
    expect(gapsAt(shop, plan, 'M2', '08:00', '14:00')).toEqual([
      [at('08:00'), at('14:00'), 'nothing-due', 'Nothing due until Mon 14:00: no work is left that it can do.'],
    ]);
  });

  it('is all there is in a plan without work', () => {
    const reasons = [...gapsOf(shopWith({ jobs: [] }), planOf([])).values()].flat().map((gap) => gap.reason);
    expect(new Set(reasons)).toEqual(new Set(['nothing-due']));
  });
});
