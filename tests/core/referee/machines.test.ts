import { describe, expect, it } from 'vitest';
import { referee } from '../../../core/referee';
import { broken, by, handless, jobOf, operation, planned, planOf, shopOf, t } from './fixture';

const twoJobs = [jobOf('A', [handless()]), jobOf('B', [handless()])];

describe('one machine, one run', () => {
  const shop = shopOf(twoJobs);
  const first = planned('A/10/1', 'M1', t('08:00'), t('09:00'));

  it('lets a run start the minute another ends', () => {
    expect(broken(shop, [first, planned('B/10/1', 'M1', t('09:00'), t('10:00'))])).toEqual([]);
  });

  it('refuses a one-minute overlap', () => {
    expect(broken(shop, [first, planned('B/10/1', 'M1', t('08:59'), t('09:59'))])).toEqual([
      '1 machine-overlap A/10/1 B/10/1',
    ]);
  });

  it('finds an overlap with a long run when a short one ended in between', () => {
    const long = jobOf('L', [handless({ machines: [{ machine: 'M1', cycle: 300 }] })]);
    const runs = [
      planned('L/10/1', 'M1', t('08:00'), t('13:00')),
      planned('A/10/1', 'M2', t('08:00'), t('09:00')),
      planned('B/10/1', 'M1', t('12:59'), t('13:59')),
    ];
    expect(broken(shopOf([...twoJobs, long]), runs)).toEqual(['1 machine-overlap L/10/1 B/10/1']);
  });

  it('names machine, runs and times in the zone of the shop', () => {
    const runs = [first, planned('B/10/1', 'M1', t('08:59'), t('09:59'))];
    expect(referee(shop, planOf(shop, runs)).breaches[0]?.say).toBe(
      'M1 is busy with A/10/1 until Wed 25 Nov 09:00 and with B/10/1 from Wed 25 Nov 08:59.',
    );
  });

  it('keeps a table busy from loading to unloading', () => {
    const table = operation({ machines: [{ machine: 'T1', cycle: 60 }] });
    const tables = shopOf([jobOf('A', [table]), jobOf('B', [table])]);
    const runs = (nextLoad: number) => [
      planned('A/10/1', 'T1', t('08:10'), t('09:10'), { load: by('ana', t('08:00')), unload: by('ana', t('09:30')) }),
      planned('B/10/1', 'T1', nextLoad + 10, nextLoad + 70, {
        load: by('ana', nextLoad),
        unload: by('ana', nextLoad + 70),
      }),
    ];
    expect(broken(tables, runs(t('10:20')))).toEqual([]);
    const tight = runs(t('09:40'));
    expect(broken(tables, tight)).toEqual([]);
    // Ana cannot do both either; what counts here is that the table still holds the first part.
    const early = tight.map((run, i) => (i === 0 ? { ...run, unload: by('ana', t('09:31')) } : run));
    expect(broken(tables, early)).toContain('1 machine-overlap A/10/1 B/10/1');
  });
});

describe('hours of a machine', () => {
  const withMachine = (more: object) =>
    shopOf([jobOf('A', [handless()])], { machines: [{ id: 'M1', kind: 'mill', places: 2, ...more }] });
  const days = ['wed' as const];
  const run = planned('A/10/1', 'M1', t('09:00'), t('10:00'));

  it('takes a run that just fits', () => {
    expect(broken(withMachine({ hours: [{ days, from: '09:00', to: '10:00' }] }), [run])).toEqual([]);
  });

  it('refuses a run a minute outside at either end', () => {
    const late = withMachine({ hours: [{ days, from: '09:01', to: '12:00' }] });
    const early = withMachine({ hours: [{ days, from: '08:00', to: '09:59' }] });
    expect(broken(late, [run])).toEqual(['1 machine-hours A/10/1']);
    expect(broken(early, [run])).toEqual(['1 machine-hours A/10/1']);
  });

  it('takes a run between closures that touch it', () => {
    const closures = [
      { from: '2026-11-25T08:00', to: '2026-11-25T09:00' },
      { from: '2026-11-25T10:00', to: '2026-11-25T11:00' },
    ];
    expect(broken(withMachine({ closures }), [run])).toEqual([]);
  });

  it('refuses a run that reaches a minute into a closure', () => {
    const closures = [{ from: '2026-11-25T09:59', to: '2026-11-25T11:00' }];
    expect(broken(withMachine({ closures }), [run])).toEqual(['1 machine-closed A/10/1']);
  });

  it('lets a finished part wait on the table through a closure, but not be unloaded in it', () => {
    const shop = shopOf([jobOf('A', [operation({ machines: [{ machine: 'T1', cycle: 60 }] })])], {
      machines: [{ id: 'T1', kind: 'grind', closures: [{ from: '2026-11-25T09:10', to: '2026-11-25T11:00' }] }],
    });
    const runWith = (unload: number) => [
      planned('A/10/1', 'T1', t('08:10'), t('09:10'), { load: by('ana', t('08:00')), unload: by('ana', unload) }),
    ];
    expect(broken(shop, runWith(t('11:00')))).toEqual([]);
    expect(broken(shop, runWith(t('10:59')))).toEqual(['1 machine-closed A/10/1']);
  });

  it('lets a machine with places be loaded before its hours begin', () => {
    const shop = shopOf([jobOf('A', [operation({ unload: 0 })])], {
      machines: [
        { id: 'M1', kind: 'mill', places: 2, hours: [{ days, from: '09:00', to: '10:00' }] },
        { id: 'M2', kind: 'mill' },
      ],
    });
    expect(broken(shop, [{ ...run, load: by('ana', t('08:00')) }])).toEqual([]);
  });

  it('lets a machine be off in the hold for a first-piece check, but not in the check', () => {
    const firstPiece = { after: 20, minutes: 10 };
    const held = (to: string) =>
      shopOf([jobOf('A', [handless({ firstPiece })])], {
        machines: [
          { id: 'M1', kind: 'mill', places: 2, closures: [{ from: '2026-11-25T09:20', to: `2026-11-25T${to}` }] },
        ],
      });
    const checked = [planned('A/10/1', 'M1', t('09:00'), t('10:20'), { check: by('ana', t('09:30')) })];
    expect(broken(held('09:30'), checked)).toEqual([]);
    expect(broken(held('09:31'), checked)).toEqual(['1 machine-closed A/10/1']);
  });

  it('holds a bench to its hours', () => {
    const bench = (to: string) =>
      shopOf([jobOf('A', [operation({ machines: [{ machine: 'B1', cycle: 60 }], load: 0, unload: 0 })])], {
        machines: [{ id: 'B1', kind: 'bench', hours: [{ days, from: '08:00', to }] }],
      });
    const work = [planned('A/10/1', 'B1', t('08:30'), t('09:30'), { work: by('ana', t('08:30'), 60) })];
    expect(broken(bench('09:30'), work)).toEqual([]);
    expect(broken(bench('09:29'), work)).toEqual(['1 machine-hours A/10/1']);
  });
});

describe('the machine of a run', () => {
  it('must be known, in use and among those of the operation', () => {
    const shop = shopOf([jobOf('A', [handless()])], {
      machines: [
        { id: 'M1', kind: 'mill', inUse: false, places: 2 },
        { id: 'T1', kind: 'grind' },
      ],
    });
    const on = (machine: string) => broken(shop, [planned('A/10/1', machine, t('08:00'), t('09:00'))]);
    expect(on('M1')).toEqual(['1 machine-not-in-use A/10/1']);
    expect(on('T1')).toEqual(['1 machine-unfit A/10/1']);
    expect(on('M9')).toEqual(['1 unknown-machine A/10/1']);
  });

  it('cuts exactly as long as its cycle says', () => {
    const shop = shopOf([jobOf('A', [handless()])]);
    const until = (end: number) => broken(shop, [planned('A/10/1', 'M1', t('08:00'), end)]);
    expect(until(t('09:00'))).toEqual([]);
    expect(until(t('08:59'))).toEqual(['1 cut-length A/10/1']);
    expect(until(t('09:01'))).toEqual(['1 cut-length A/10/1']);
    expect(until(t('07:00'))).toEqual(['1 cut-length A/10/1']);
  });

  it('cuts a part-filled pallet for its share, rounded up', () => {
    const shop = shopOf([jobOf('A', [handless({ perPallet: 3 })], { quantity: 4 })]);
    const full = planned('A/10/1', 'M1', t('08:00'), t('09:00'));
    expect(broken(shop, [full, planned('A/10/2', 'M1', t('09:00'), t('09:20'))])).toEqual([]);
    expect(broken(shop, [full, planned('A/10/2', 'M1', t('09:00'), t('09:19'))])).toEqual(['1 cut-length A/10/2']);
  });

  it('cuts for some time even where its own time is not known', () => {
    const shop = shopOf([jobOf('A', [handless()])]);
    expect(broken(shop, [planned('A/10/1', 'T1', t('08:00'), t('08:00'))])).toEqual([
      '1 machine-unfit A/10/1',
      '1 cut-length A/10/1',
    ]);
  });
});
