import { describe, expect, it } from 'vitest';
import { at, DAILY, jobOf, personOf, planOf } from '../measure/fixture';
import { ANNA, gapsAt, op, shopWith } from './gaps-fixture';

describe('planned off', () => {
  it('names the closure, cut where the last person leaves', () => {
    const shop = shopWith({
      machines: [
        {
          id: 'M1',
          kind: 'mill',
          closures: [{ from: '2026-11-30T12:00', to: '2026-11-30T18:00', why: 'Spindle care.' }],
        },
      ],
      jobs: [jobOf('A', [op('10', 'M1', 60)])],
    });
    expect(gapsAt(shop, planOf([]), 'M1', '12:00', '18:00')).toEqual([
      [at('12:00'), at('14:00'), 'off', 'Planned off until Mon 18:00: Spindle care.'],
      [at('14:00'), at('18:00'), 'off', 'Planned off until Mon 18:00: Spindle care.'],
    ]);
  });

  it('is time outside its hours', () => {
    const shop = shopWith({ machines: [{ id: 'M1', kind: 'mill', hours: [DAILY('06:00', '18:00')] }], jobs: [] });
    expect(gapsAt(shop, planOf([]), 'M1', '18:00', '1 06:00')).toEqual([
      [at('18:00'), at('1 06:00'), 'off', 'Planned off until Tue 06:00: outside its hours.'],
    ]);
  });

  it('is all the time of a machine out of use', () => {
    const shop = shopWith({ machines: [{ id: 'M1', kind: 'mill', inUse: false }] });
    expect(gapsAt(shop, planOf([]), 'M1', '06:00', '14:00')).toEqual([
      [at('06:00'), at('14:00'), 'off', 'Planned off to the end of the plan: it is out of use.'],
    ]);
  });

  it('is also time in which what is loaded no longer fits', () => {
    const shop = shopWith({
      machines: [{ id: 'M1', kind: 'mill', places: 2, hours: [DAILY('06:00', '12:00')] }],
      jobs: [jobOf('A', [op('10', 'M1', 120)])],
    });
    const plan = planOf([
      { run: 'A/10/1', machine: 'M1', pallet: 'P1', load: ['Anna', '11:00', '11:20'], cut: ['1 06:00', '1 08:00'] },
    ]);
    expect(gapsAt(shop, plan, 'M1', '11:00', '12:00')).toEqual([
      [at('11:00'), at('11:20'), 'hand', 'Waits for a hand until Mon 11:20: P1 is being loaded for A op 10.'],
      [
        at('11:20'),
        at('12:00'),
        'off',
        'Planned off until Tue 06:00: A op 10 is loaded but does not fit before 12:00.',
      ],
    ]);
  });
});

describe('waiting for a hand', () => {
  it('is a hold for the first-piece check, but not the check itself', () => {
    const shop = shopWith({ jobs: [jobOf('A', [op('10', 'M1', 60, { firstPiece: { after: 20, minutes: 15 } })])] });
    const plan = planOf([
      {
        run: 'A/10/1',
        machine: 'M1',
        pallet: 'P1',
        load: ['Anna', '06:00', '06:20'],
        cut: ['06:20', '07:35'],
        check: ['Anna', '06:50', '07:05'],
        unload: ['Anna', '07:35', '07:45'],
      },
    ]);
    expect(gapsAt(shop, plan, 'M1', '06:20', '07:35')).toEqual([
      [
        at('06:40'),
        at('06:50'),
        'hand',
        'Waits for a hand until Mon 06:50: A op 10 is held for its first-piece check.',
      ],
    ]);
  });

  it('is a finished part on the table, attended or not, but not the taking off', () => {
    const shop = shopWith({ machines: [{ id: 'M1', kind: 'mill' }], jobs: [jobOf('A', [op('10', 'M1', 600)])] });
    const plan = planOf([
      {
        run: 'A/10/1',
        machine: 'M1',
        pallet: 'P1',
        load: ['Anna', '06:00', '06:20'],
        cut: ['06:20', '16:20'],
        unload: ['Anna', '1 06:05', '1 06:15'],
      },
    ]);
    expect(gapsAt(shop, plan, 'M1', '06:00', '1 06:15')).toEqual([
      [
        at('16:20'),
        at('1 06:00'),
        'hand',
        'Waits for a hand until Tue 06:00: A op 10 is finished and waits on the table.',
      ],
      [
        at('1 06:00'),
        at('1 06:05'),
        'hand',
        'Waits for a hand until Tue 06:05: A op 10 is finished and waits on the table.',
      ],
    ]);
  });

  describe('with work ready', () => {
    const jobs = [jobOf('A', [op('10', 'M1', 60)]), jobOf('B', [op('10', 'M2', 60)])];
    const plan = planOf([
      {
        run: 'A/10/1',
        machine: 'M1',
        pallet: 'P1',
        load: ['Anna', '06:00', '06:20'],
        cut: ['06:20', '07:20'],
        unload: ['Anna', '10:30', '10:40'],
      },
      {
        run: 'B/10/1',
        machine: 'M2',
        pallet: 'P2',
        load: ['Anna', '06:20', '06:40'],
        cut: ['06:40', '07:40'],
        unload: ['Anna', '10:40', '10:50'],
      },
    ]);

    it('is time in which the only person is at another machine', () => {
      expect(gapsAt(shopWith({ jobs }), plan, 'M2', '06:00', '06:40')).toEqual([
        [
          at('06:00'),
          at('06:40'),
          'hand',
          'Waits for a hand until Mon 06:40: B op 10 could be loaded, but Anna is at M1 until 06:20.',
        ],
      ]);
    });

    it('is none while somebody with free hands is there, who need not have the skill if none is asked for', () => {
      const two = shopWith({ jobs, people: [ANNA, personOf('Ben', '06:00', '14:00')] });
      expect(gapsAt(two, plan, 'M2', '06:00', '06:40')).toEqual([
        [at('06:00'), at('06:20'), 'dry', 'Dry until Mon 06:20: the plan puts B op 10 on at 06:20.'],
        [at('06:20'), at('06:40'), 'hand', 'Waits for a hand until Mon 06:40: P2 is being loaded for B op 10.'],
      ]);
      const skilled = shopWith({
        jobs: [jobOf('A', [op('10', 'M1', 60)]), jobOf('B', [op('10', 'M2', 60, { skill: 'mill' })])],
        people: [ANNA, personOf('Ben', '06:00', '14:00')],
      });
      expect(gapsAt(skilled, plan, 'M2', '06:00', '06:20')).toMatchObject([[at('06:00'), at('06:40'), 'hand', {}]]);
    });

    it('counts the walk as time in which the person is elsewhere', () => {
      const far = shopWith({ jobs, walking: { usual: 5 } });
      const later = structuredClone(plan);
      Object.assign(later.runs[1]!, {
        load: { person: 'Anna', start: at('06:50'), end: at('07:10') },
        start: at('07:10'),
      });
      // 06:25, when Anna could be at M2, to 06:50 are time enough for the 20 minutes; the plan waits all the same.
      expect(gapsAt(far, later, 'M2', '06:00', '07:10').map((gap) => gap.slice(0, 3))).toEqual([
        [at('06:00'), at('06:25'), 'hand'],
        [at('06:25'), at('06:50'), 'dry'],
        [at('06:50'), at('07:10'), 'hand'],
      ]);
    });

    it('is a break, and free minutes too few for the loading', () => {
      const shop = shopWith({ jobs: [jobOf('A', [op('10', 'M1', 60)])] });
      const later = planOf(
        [{ run: 'A/10/1', machine: 'M1', pallet: 'P1', load: ['Anna', '10:30', '10:50'], cut: ['10:50', '11:50'] }],
        { now: '09:45' },
      );
      expect(gapsAt(shop, later, 'M1', '09:45', '10:50')).toEqual([
        [
          at('09:45'),
          at('10:50'),
          'hand',
          'Waits for a hand until Mon 10:50: A op 10 could be loaded, but Anna has no 20 min in a row before 10:30.',
        ],
      ]);
    });

    it('is time in which somebody is there, but nobody with the skill', () => {
      const shop = shopWith({
        people: [personOf('Anna', '08:00', '14:00', [], ['mill']), personOf('Ben', '06:00', '14:00')],
        jobs: [jobOf('A', [op('10', 'M1', 60, { skill: 'mill' })])],
      });
      const later = planOf([
        { run: 'A/10/1', machine: 'M1', pallet: 'P1', load: ['Anna', '08:00', '08:20'], cut: ['08:20', '09:20'] },
      ]);
      expect(gapsAt(shop, later, 'M1', '06:00', '08:20')).toEqual([
        [
          at('06:00'),
          at('08:20'),
          'hand',
          'Waits for a hand until Mon 08:20: A op 10 could be loaded, but Anna is not here before 08:00.',
        ],
      ]);
    });

    it('is a bench at night', () => {
      const shop = shopWith({
        machines: [{ id: 'B1', kind: 'bench' }],
        jobs: [jobOf('A', [{ id: '10', machines: [{ machine: 'B1', cycle: 60 }] }])],
      });
      const later = planOf([
        { run: 'A/10/1', machine: 'B1', cut: ['1 06:00', '1 07:00'], work: ['Anna', '1 06:00', '1 07:00'] },
      ]);
      expect(gapsAt(shop, later, 'B1', '14:00', '1 06:00')).toEqual([
        [at('14:00'), at('1 06:00'), 'hand', 'Waits for a hand until Tue 06:00: nobody is here to work at it.'],
      ]);
    });
  });
});
