import { describe, expect, it } from 'vitest';
import { whyRun } from '../../../core/explain';
import { DAILY, jobOf } from '../measure/fixture';
import { op, shopWith } from './gaps-fixture';
import { AHEAD, legal, why } from './why-fixture';

describe('a run that waits for nothing', () => {
  const jobs = [jobOf('A', [op('10', 'M1', 60)])];
  const at = (cut: readonly [string, string], off: readonly [string, string]) =>
    ({
      run: 'A/10/1',
      machine: 'M1',
      pallet: 'P1',
      load: ['Anna', '06:00', '06:20'],
      cut,
      unload: ['Anna', ...off],
    }) as const;

  it('is said to be where the plan chose to have it, and what starting sooner would cost', () => {
    const night = at(['14:00', '15:00'], ['1 06:00', '1 06:10']);
    // Cut by day it brings no hour tonight.
    expect(why({ jobs }, 'A/10/1', [night])).toEqual({
      here:
        'A op 10 starts on M1 at Mon 14:00, 7 h 40 min later than it must: the plan chose so. It could start at 06:20 with ' +
        'every other run where it is. That would mean 1.0 h less to expect tonight.',
      notEarlier: null,
      frees: [],
      binding: ['choice'],
    });
  });

  it('is said to have slack where starting sooner would cost nothing', () => {
    const { here } = why({ jobs }, 'A/10/1', [at(['08:00', '09:00'], ['09:00', '09:10'])]);
    expect(here).toMatch(
      /It could start at 06:20 .* That would cost nothing by the weights: the plan has slack here\.$/,
    );
  });

  it('is as early as can be where it begins with the plan', () => {
    const bare = [jobOf('A', [op('10', 'M1', 60, { load: 0, unload: 0 })])];
    expect(
      why({ jobs: bare }, 'A/10/1', [{ run: 'A/10/1', machine: 'M1', pallet: 'P1', cut: ['06:00', '07:00'] }]),
    ).toEqual({
      here: 'A op 10 starts on M1 at Mon 06:00: as early as can be.',
      notEarlier: 'With every other run where it is, it cannot start earlier, whatever is added.',
      frees: [],
      binding: [],
    });
  });

  it('is told of as it stands where it has begun', () => {
    const floor = [
      { run: 'A/10/1', state: 'running' as const, machine: 'M1', pallet: 'P1', start: '2026-11-30T05:50' },
    ];
    const running = {
      run: 'A/10/1',
      machine: 'M1',
      pallet: 'P1',
      cut: ['05:50', '06:50'],
      unload: ['Anna', '06:50', '07:00'],
    } as const;
    expect(why({ jobs, floor }, 'A/10/1', [running])).toEqual({
      here: 'A op 10 has been on M1 since Mon 05:50.',
      notEarlier: null,
      frees: [],
      binding: [],
    });
  });
});

describe('a run that is left out', () => {
  it('is told what would let it in', () => {
    const jobs = [jobOf('A', [op('10', 'M1', 60)]), jobOf('B', [op('10', 'M2', 2000)])];
    const hog = { ...AHEAD, machine: 'M2', pallet: 'P1', cut: ['06:20', '1 15:40'] } as const;
    const { unload, ...kept } = hog;
    const shop = shopWith({
      horizonDays: 2,
      jobs: [jobs[0]!, jobOf('B', [op('10', 'M2', 2000, { unload: 0 })])],
      pallets: [{ id: 'P1', fixture: 'F' }],
    });
    const plan = legal(shop, [kept], {
      left: [{ run: 'A/10/1', why: 'no room before the horizon on any of its machines' }],
    });
    const found = whyRun(shop, plan, 'A/10/1');
    expect(found.here).toBe('A op 10 is left out: no room before the horizon on any of its machines.');
    expect(found.frees[0]).toEqual({
      say: 'One more pallet with fixture F: it could start on M1 at Mon 06:40',
      gain: 41 * 60 + 20,
    });
  });

  it('is refused where no plan names it', () => {
    const shop = shopWith({ horizonDays: 2, jobs: [] });
    expect(() => whyRun(shop, legal(shop, []), 'Z/10/1')).toThrow('The plan has no run Z/10/1.');
  });
});

it('reads the hours of a machine as planned-off time before which a run must be through', () => {
  const machines = [{ id: 'M1', kind: 'mill' as const, places: 2, hours: [DAILY('07:00', '12:00')] }];
  const run = {
    run: 'A/10/1',
    machine: 'M1',
    pallet: 'P1',
    load: ['Anna', '09:00', '09:20'],
    cut: ['1 07:00', '1 11:00'],
    unload: ['Anna', '1 11:00', '1 11:10'],
  } as const;
  const { here, binding } = why({ jobs: [jobOf('A', [op('10', 'M1', 240)])], machines }, 'A/10/1', [run], {
    now: '09:00',
  });
  expect(here).toBe('A op 10 starts on M1 at Tue 07:00: M1 is planned off until 07:00 (outside its hours).');
  expect(binding).toEqual(['off']);
});
