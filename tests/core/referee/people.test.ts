import { describe, expect, it } from 'vitest';
import { referee } from '../../../core/referee';
import type { PlannedRun } from '../../../core/shop';
import { broken, by, jobOf, operation, planned, planOf, shopOf, t } from './fixture';

const unloaded = operation({ load: 0 });
const onM1 = jobOf('A', [unloaded]);
const onM2 = jobOf('B', [unloaded]);
const onCell = (id: string, machine: string) => jobOf(id, [operation({ machines: [{ machine, cycle: 60 }], load: 0 })]);

/** An hour on the machine from 08:00, taken off by Ana at the given time. */
function takenOff(run: string, machine: string, at: number, person = 'ana'): PlannedRun {
  return planned(run, machine, t('08:00'), t('09:00'), { unload: by(person, at) });
}

describe('hours and breaks of a person', () => {
  const shop = shopOf([onM1]);
  const at = (start: number, person = 'ana') => broken(shop, [takenOff('A/10/1', 'M1', start, person)]);

  it('lets an attendance end the minute the break begins and begin the minute it ends', () => {
    expect(at(t('09:50'))).toEqual([]);
    expect(at(t('10:15'))).toEqual([]);
  });

  it('refuses a minute of the break at either end', () => {
    expect(at(t('09:51'))).toEqual(['2 person-break A/10/1']);
    expect(at(t('10:14'))).toEqual(['2 person-break A/10/1']);
  });

  it('joins normal and extra hours, and refuses the minute after them', () => {
    expect(at(t('13:55'))).toEqual([]);
    expect(at(t('15:50'))).toEqual([]);
    expect(at(t('15:51'))).toEqual(['2 person-hours A/10/1']);
  });

  it('refuses the minute before the hours begin', () => {
    expect(at(t('14:00'), 'ben')).toEqual([]);
    expect(at(t('13:59'), 'ben')).toEqual(['2 person-hours A/10/1']);
  });

  it('puts the hours of one date in place of the weekly ones', () => {
    const away = shopOf([onM1], {
      people: [
        {
          id: 'ana',
          hours: [{ days: ['wed'], from: '06:00', to: '14:00' }],
          exceptions: [{ date: '2026-11-25', hours: [{ from: '12:00', to: '18:00' }] }],
        },
      ],
    });
    expect(broken(away, [takenOff('A/10/1', 'M1', t('17:50'))])).toEqual([]);
    expect(broken(away, [takenOff('A/10/1', 'M1', t('11:59'))])).toEqual(['2 person-hours A/10/1']);
  });

  it('refuses a person the shop does not have', () => {
    expect(at(t('09:00'), 'eve')).toEqual(['2 unknown-person A/10/1']);
  });

  it('says who does what where and when', () => {
    const plan = planOf(shop, [takenOff('A/10/1', 'M1', t('15:51'))]);
    expect(referee(shop, plan).breaches[0]?.say).toBe(
      'Ana unloads A/10/1 at M1 from Wed 25 Nov 15:51 to Wed 25 Nov 16:01, outside their hours.',
    );
  });
});

describe('skills', () => {
  const skilled = (machine: string, skill: string) =>
    shopOf([jobOf('A', [operation({ load: 0, skill })])], {
      machines: [
        { id: 'M1', kind: 'mill', places: 2, skill: machine },
        { id: 'M2', kind: 'mill' },
      ],
    });
  const byWhom = (machine: string, operation: string, person: string) =>
    broken(skilled(machine, operation), [takenOff('A/10/1', 'M1', t('15:00'), person)]);

  it('asks for the skill of the machine where the operation names none', () => {
    expect(byWhom('measure', '', 'ana')).toEqual([]);
    expect(byWhom('measure', '', 'ben')).toEqual(['2 skill A/10/1']);
  });

  it('asks for the skill of the operation in place of that of the machine', () => {
    expect(byWhom('grind', 'measure', 'ana')).toEqual([]);
    expect(byWhom('measure', 'grind', 'ana')).toEqual(['2 skill A/10/1']);
  });

  it('asks for none where neither names one', () => {
    expect(byWhom('', '', 'ben')).toEqual([]);
  });
});

describe('one thing at a time', () => {
  it('lets two attendances on one spot touch', () => {
    const shop = shopOf([onM1, jobOf('B', [operation({ unload: 0 })])]);
    const runs = (load: number) => [
      takenOff('A/10/1', 'M1', t('09:00')),
      planned('B/10/1', 'M1', t('10:15'), t('11:15'), { load: by('ana', load) }),
    ];
    expect(broken(shop, runs(t('09:10')))).toEqual([]);
    const overlap = broken(shop, runs(t('09:09')));
    // The one load station of M1 serves both as well.
    expect(overlap).toEqual(['2 person-overlap A/10/1 B/10/1', '3 stations A/10/1 B/10/1']);
  });

  it('lets two people work at once', () => {
    const runs = [takenOff('A/10/1', 'M1', t('14:00')), takenOff('B/10/1', 'M2', t('14:00'), 'ben')];
    expect(broken(shopOf([onM1, onM2]), runs)).toEqual([]);
  });
});

describe('walking', () => {
  const both = (second: number) => [takenOff('A/10/1', 'M1', t('09:00')), takenOff('B/10/1', 'M2', second)];

  it('takes exactly the walk between two named spots, in either direction', () => {
    const shop = shopOf([onM1, onM2]);
    expect(broken(shop, both(t('09:15')))).toEqual([]);
    expect(broken(shop, both(t('09:14')))).toEqual(['2 walk A/10/1 B/10/1']);
    expect(broken(shop, both(t('09:10')))).toEqual(['2 walk A/10/1 B/10/1']);
    expect(broken(shop, both(t('09:09')))).toEqual(['2 person-overlap A/10/1 B/10/1']);
    const back = [takenOff('A/10/1', 'M1', t('09:14')), takenOff('B/10/1', 'M2', t('09:00'))];
    expect(broken(shop, back)).toEqual(['2 walk B/10/1 A/10/1']);
    expect(broken(shop, [takenOff('A/10/1', 'M1', t('09:15')), takenOff('B/10/1', 'M2', t('09:00'))])).toEqual([]);
  });

  it('takes the usual walk between spots not named', () => {
    const shop = shopOf([onM1, onCell('B', 'C1')]);
    const runs = (second: number) => [takenOff('A/10/1', 'M1', t('09:00')), takenOff('B/10/1', 'C1', second)];
    expect(broken(shop, runs(t('09:12')))).toEqual([]);
    expect(broken(shop, runs(t('09:11')))).toEqual(['2 walk A/10/1 B/10/1']);
  });

  it('takes nothing between machines of one cell, nor between machines on one spot', () => {
    const cell = shopOf([onCell('A', 'C1'), onCell('B', 'C2')]);
    const inCell = [takenOff('A/10/1', 'C1', t('09:00')), takenOff('B/10/1', 'C2', t('09:10'))];
    expect(broken(cell, inCell)).toEqual([]);
    const spot = shopOf([onM1, onM2], {
      machines: [
        { id: 'M1', kind: 'mill', places: 2, spot: 'aisle' },
        { id: 'M2', kind: 'mill', places: 2, spot: 'aisle' },
      ],
    });
    expect(broken(spot, both(t('09:10')))).toEqual([]);
  });

  it('checks a first piece at the machine, not at the load station of its cell', () => {
    const operationInCell = operation({
      machines: [{ machine: 'C1', cycle: 60 }],
      unload: 0,
      firstPiece: { after: 1, minutes: 10 },
    });
    const shop = shopOf([jobOf('A', [operationInCell])]);
    const checkedAt = (check: number) => [
      planned('A/10/1', 'C1', t('08:10'), check + 69, { load: by('ana', t('08:00')), check: by('ana', check) }),
    ];
    expect(broken(shop, checkedAt(t('08:12')))).toEqual([]);
    expect(broken(shop, checkedAt(t('08:11')))).toEqual(['2 walk A/10/1 A/10/1']);
  });
});

describe('work at a bench', () => {
  const bench = operation({ machines: [{ machine: 'B1', cycle: 40 }], load: 5, unload: 5 });
  const shop = shopOf([jobOf('A', [bench])]);
  const run = planned('A/10/1', 'B1', t('08:00'), t('08:50'), { work: by('ana', t('08:00'), 50) });

  it('is one attendance as long as loading, work and unloading together', () => {
    expect(broken(shop, [run])).toEqual([]);
    expect(broken(shop, [{ ...run, end: t('08:49'), work: by('ana', t('08:00'), 49) }])).toEqual([
      '2 work-length A/10/1',
    ]);
  });

  it('needs somebody, from start to end', () => {
    expect(broken(shop, [{ ...run, work: null }])).toEqual(['2 work-missing A/10/1']);
    expect(broken(shop, [{ ...run, work: by('ana', t('08:01'), 49) }])).toEqual(['2 work-span A/10/1']);
    expect(broken(shop, [{ ...run, work: by('ana', t('08:00'), 49) }])).toEqual(['2 work-span A/10/1']);
  });

  it('takes some time even at a bench that is not one of the operation', () => {
    const milled = shopOf([jobOf('A', [operation()])]);
    expect(broken(milled, [{ ...run, end: run.start, work: by('ana', run.start, 0) }])).toEqual([
      '1 machine-unfit A/10/1',
      '2 work-span A/10/1',
    ]);
  });

  it('has no other attendance', () => {
    expect(broken(shop, [{ ...run, unload: by('ana', t('09:00')) }])).toEqual(['2 bench-attendance A/10/1']);
  });

  it('is not done at a machine', () => {
    const milled = planned('A/10/1', 'M1', t('08:00'), t('09:00'), { work: by('ana', t('08:00'), 60) });
    expect(broken(shopOf([jobOf('A', [operation({ load: 0, unload: 0 })])]), [milled])).toEqual([
      '2 work-not-at-bench A/10/1',
    ]);
  });
});
