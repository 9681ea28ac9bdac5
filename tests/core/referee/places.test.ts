import { describe, expect, it } from 'vitest';
import { referee } from '../../../core/referee';
import { broken, by, handless, jobOf, operation, planned, planOf, shopOf, t } from './fixture';

describe('loading and unloading', () => {
  const shop = shopOf([jobOf('A', [operation()])]);
  const run = planned('A/10/1', 'M1', t('08:10'), t('09:10'), {
    load: by('ana', t('08:00')),
    unload: by('ana', t('09:10')),
  });

  it('may touch the cut on either side', () => {
    expect(broken(shop, [run])).toEqual([]);
  });

  it('must be over before the run starts, and not begin before it ends', () => {
    expect(broken(shop, [{ ...run, load: by('ana', t('08:01')) }])).toEqual(['3 load-late A/10/1']);
    expect(broken(shop, [{ ...run, unload: by('ana', t('09:09')) }])).toEqual(['3 unload-early A/10/1']);
  });

  it('must be planned where the operation takes any', () => {
    expect(broken(shop, [{ ...run, load: null }])).toEqual(['3 load-missing A/10/1']);
    expect(broken(shop, [{ ...run, unload: null }])).toEqual(['3 unload-missing A/10/1']);
  });

  it('must be as long as the operation says, to the minute', () => {
    expect(broken(shop, [{ ...run, load: by('ana', t('08:00'), 9) }])).toEqual(['3 load-length A/10/1']);
    expect(broken(shop, [{ ...run, unload: by('ana', t('09:10'), 11) }])).toEqual(['3 unload-length A/10/1']);
    expect(broken(shop, [{ ...run, unload: by('ana', t('09:40'), -10) }])).toEqual(['3 unload-length A/10/1']);
  });

  it('must not be planned where the operation takes none', () => {
    const bare = shopOf([jobOf('A', [handless()])]);
    expect(broken(bare, [{ ...run, unload: null }])).toEqual(['3 load-not-needed A/10/1']);
    expect(broken(bare, [{ ...run, load: null }])).toEqual(['3 unload-not-needed A/10/1']);
  });

  it('makes a run on the table start the minute it is loaded', () => {
    const table = shopOf([jobOf('A', [operation({ machines: [{ machine: 'T1', cycle: 60 }] })])]);
    const onTable = { ...run, machine: 'T1' };
    expect(broken(table, [onTable])).toEqual([]);
    const later = { ...onTable, start: t('08:11'), end: t('09:11'), unload: by('ana', t('09:11')) };
    expect(broken(table, [later])).toEqual(['4 table-start A/10/1']);
    const sooner = { ...onTable, start: t('08:09'), end: t('09:09') };
    expect(broken(table, [sooner])).toEqual(['4 table-start A/10/1']);
  });
});

describe('places', () => {
  const jobs = ['A', 'B', 'D'].map((id) => jobOf(id, [operation({ load: 0 })]));
  /** Two finished runs wait on M1 for Ana to come at 11:00. */
  const waiting = [
    planned('A/10/1', 'M1', t('08:00'), t('09:00'), { unload: by('ana', t('11:00')) }),
    planned('B/10/1', 'M1', t('09:00'), t('10:00'), { unload: by('ana', t('11:10')) }),
  ];
  const third = (machine: string, start: number) =>
    planned('D/10/1', machine, start, start + 60, { unload: by('ana', t('13:00')) });

  it('are free again the minute a run is off', () => {
    expect(broken(shopOf(jobs), [...waiting, third('M1', t('11:10'))])).toEqual([]);
  });

  it('do not take one run more, not for a minute', () => {
    expect(broken(shopOf(jobs), [...waiting, third('M1', t('11:09'))])).toEqual(['3 places A/10/1 B/10/1 D/10/1']);
  });

  it('are without limit where none is given', () => {
    const endless = shopOf(jobs, {
      machines: [
        { id: 'M1', kind: 'mill', places: null },
        { id: 'M2', kind: 'mill' },
      ],
    });
    expect(broken(endless, [...waiting, third('M1', t('10:00'))])).toEqual([]);
  });

  it('of a cell count over all its machines', () => {
    const cells = ['A', 'B', 'D'].map((id) =>
      jobOf(id, [operation({ load: 0, machines: ['C1', 'C2'].map((machine) => ({ machine, cycle: 60 })) })]),
    );
    const inCell = waiting.map((run, i) => ({ ...run, machine: i === 0 ? 'C1' : 'C2' }));
    expect(broken(shopOf(cells), [...inCell, third('C2', t('11:10'))])).toEqual([]);
    expect(broken(shopOf(cells), [...inCell, third('C1', t('11:09'))])).toEqual(['3 places A/10/1 B/10/1 D/10/1']);
  });

  it('are taken from the start of loading', () => {
    const loaded = [...jobs.slice(0, 2), jobOf('D', [operation({ unload: 0 })])];
    const late = (load: number) => planned('D/10/1', 'M1', t('12:00'), t('13:00'), { load: by('ana', load) });
    expect(broken(shopOf(loaded), [...waiting, late(t('11:20'))])).toEqual([]);
    const ben = { ...waiting[1], unload: by('ben', t('14:00')) } as (typeof waiting)[number];
    expect(broken(shopOf(loaded), [waiting[0] as typeof ben, ben, late(t('11:10'))])).toEqual([]);
    expect(broken(shopOf(loaded), [waiting[0] as typeof ben, ben, late(t('10:50'))])).toEqual([
      '3 places A/10/1 B/10/1 D/10/1',
    ]);
  });
});

describe('load stations', () => {
  const runs = (machines: [string, string], second: number) => [
    planned('A/10/1', machines[0], t('08:00'), t('09:00'), { unload: by('ana', t('14:00')) }),
    planned('B/10/1', machines[1], t('09:00'), t('10:00'), { unload: by('ben', second) }),
  ];
  const any = operation({ load: 0, machines: ['M1', 'M2', 'C1', 'C2'].map((machine) => ({ machine, cycle: 60 })) });
  const shop = shopOf([jobOf('A', [any]), jobOf('B', [any])]);

  it('serve one pallet after another', () => {
    expect(broken(shop, runs(['M1', 'M1'], t('14:10')))).toEqual([]);
    expect(broken(shop, runs(['C1', 'C2'], t('14:10')))).toEqual([]);
  });

  it('do not serve two at once, at a machine or in a cell', () => {
    expect(broken(shop, runs(['M1', 'M1'], t('14:09')))).toEqual(['3 stations A/10/1 B/10/1']);
    expect(broken(shop, runs(['C1', 'C2'], t('14:09')))).toEqual(['3 stations A/10/1 B/10/1']);
  });

  it('are named with those who are there at the time, not with who has just left', () => {
    const third = planned('D/10/1', 'M1', t('10:00'), t('11:00'), { unload: by('ana', t('14:10')) });
    const three = shopOf(
      ['A', 'B', 'D'].map((id) => jobOf(id, [any])),
      {
        machines: [
          { id: 'M1', kind: 'mill', places: null },
          ...['M2', 'C1', 'C2'].map((id) => ({ id, kind: 'mill' as const })),
        ],
      },
    );
    expect(broken(three, [...runs(['M1', 'M1'], t('14:05')), third])).toEqual([
      '3 stations A/10/1 B/10/1',
      '3 stations B/10/1 D/10/1',
    ]);
  });

  it('of two machines serve two at once', () => {
    expect(broken(shop, runs(['M1', 'M2'], t('14:00')))).toEqual([]);
  });

  it('are named with the runs and the time', () => {
    const plan = planOf(shop, runs(['C1', 'C2'], t('14:09')));
    expect(referee(shop, plan).breaches[0]?.say).toBe(
      'At K A/10/1 and B/10/1 are loaded or unloaded at Wed 25 Nov 14:09; it has 1 load station.',
    );
  });
});
