import { describe, expect, it } from 'vitest';
import type { Why } from '../../../core/contract';
import { whyRun } from '../../../core/explain';
import { referee } from '../../../core/referee';
import type { Plan, Shop, ShopInput } from '../../../core/shop';
import { DAILY, jobOf, personOf, planOf } from '../measure/fixture';
import { op, shopWith } from './gaps-fixture';

// Own instances throughout: Anna is in the shop from 06:00 to 14:00, her break is from 10:00 to 10:30. Three pallets carry
// fixture F. The plans are made by hand, and each is refereed before it is asked about.

type Runs = Parameters<typeof planOf>[0];
type More = Parameters<typeof planOf>[1];

function legal(shop: Shop, runs: Runs, more: More & { care?: Plan['care'] } = {}): Plan {
  const bare = { ...planOf(runs, more), care: more.care ?? [] };
  const plan = { ...bare, cost: referee(shop, bare).cost };
  expect(referee(shop, plan).breaches).toEqual([]);
  return plan;
}

function why(parts: Partial<ShopInput>, run: string, runs: Runs, more: More & { care?: Plan['care'] } = {}): Why {
  const shop = shopWith({ horizonDays: 2, ...parts });
  return whyRun(shop, legal(shop, runs, more), run);
}

const CANNOT = 'With every other run where it is, it cannot start earlier.';
const B = jobOf('B', [op('10', 'M1', 300)]);
const ahead = {
  run: 'B/10/1',
  machine: 'M1',
  pallet: 'P2',
  load: ['Anna', '06:00', '06:20'],
  cut: ['06:20', '11:20'],
  unload: ['Anna', '11:20', '11:30'],
} as const;

describe('a run that waits for', () => {
  it('its machine is told which run holds it until when, and that the machine free would let it start at once', () => {
    const jobs = [jobOf('A', [op('10', 'M1', 60)]), B];
    const run = {
      run: 'A/10/1',
      machine: 'M1',
      pallet: 'P1',
      load: ['Anna', '06:20', '06:40'],
      cut: ['11:20', '12:20'],
      unload: ['Anna', '12:20', '12:30'],
    } as const;
    expect(why({ jobs }, 'A/10/1', [ahead, run])).toEqual({
      here: 'A op 10 starts on M1 at Mon 11:20: M1 is busy with B op 10 until 11:20.',
      notEarlier: CANNOT,
      // Loaded from 06:20, when Anna has loaded B.
      frees: [{ say: 'M1 free of other work: 4 h 40 min earlier', gain: 280 }],
      binding: ['machine'],
    });
  });

  it('a person is told from when somebody is there', () => {
    const run = {
      run: 'A/10/1',
      machine: 'M1',
      pallet: 'P1',
      load: ['Anna', '06:00', '06:20'],
      cut: ['06:20', '07:20'],
      unload: ['Anna', '07:20', '07:30'],
    } as const;
    expect(why({ jobs: [jobOf('A', [op('10', 'M1', 60)])] }, 'A/10/1', [run], { now: '04:00' })).toEqual({
      here: 'A op 10 starts on M1 at Mon 06:20: nobody is free to load it: Anna is not here before 06:00.',
      notEarlier: CANNOT,
      frees: [{ say: 'A hand always there: 2 h earlier', gain: 120 }],
      binding: ['person'],
    });
  });

  it('a pallet is told which one is free first, and where it is until then', () => {
    const jobs = [jobOf('A', [op('10', 'M1', 60)]), jobOf('B', [op('10', 'M2', 180)])];
    const runs = [
      { ...ahead, machine: 'M2', pallet: 'P1', cut: ['06:20', '09:20'], unload: ['Anna', '09:20', '09:30'] },
      {
        run: 'A/10/1',
        machine: 'M1',
        pallet: 'P1',
        load: ['Anna', '09:30', '09:50'],
        cut: ['09:50', '10:50'],
        unload: ['Anna', '10:50', '11:00'],
      },
    ] as const;
    expect(why({ jobs, pallets: [{ id: 'P1', fixture: 'F' }] }, 'A/10/1', runs)).toEqual({
      here: 'A op 10 starts on M1 at Mon 09:50: the only pallet with fixture F is taken; P1 is on M2 with B op 10 until 09:30.',
      notEarlier: CANNOT,
      frees: [{ say: 'One more pallet with fixture F: 3 h 10 min earlier', gain: 190 }],
      binding: ['pallet'],
    });
  });

  it('a place is told what is taken off when, and no machine or hand would help', () => {
    const jobs = [jobOf('A', [op('10', 'M1', 60)]), jobOf('B', [op('10', 'M1', 60)])];
    const runs = [
      { ...ahead, cut: ['06:20', '07:20'], unload: ['Anna', '09:00', '09:10'] },
      {
        run: 'A/10/1',
        machine: 'M1',
        pallet: 'P1',
        load: ['Anna', '09:10', '09:30'],
        cut: ['09:30', '10:30'],
        unload: ['Anna', '10:30', '10:40'],
      },
    ] as const;
    expect(why({ jobs, machines: [{ id: 'M1', kind: 'mill', places: 1 }] }, 'A/10/1', runs)).toEqual({
      here: 'A op 10 starts on M1 at Mon 09:30: its only place is held until B op 10 is taken off at 09:10.',
      notEarlier: CANNOT,
      frees: [{ say: 'One more place at M1: 2 h 10 min earlier', gain: 130 }],
      binding: ['place'],
    });
  });

  it('a load station is told what it is in use for', () => {
    const jobs = [jobOf('A', [op('10', 'M1', 60)]), jobOf('B', [op('10', 'M2', 60)])];
    const people = ['Anna', 'Ben'].map((id) => personOf(id, '06:00', '14:00'));
    const machines = ['M1', 'M2'].map((id) => ({ id, kind: 'mill' as const, cell: 'C1' }));
    const runs = [
      {
        ...ahead,
        machine: 'M2',
        load: ['Ben', '06:00', '06:20'],
        cut: ['06:20', '07:20'],
        unload: ['Ben', '07:20', '07:30'],
      },
      {
        run: 'A/10/1',
        machine: 'M1',
        pallet: 'P1',
        load: ['Anna', '06:20', '06:40'],
        cut: ['06:40', '07:40'],
        unload: ['Anna', '07:40', '07:50'],
      },
    ] as const;
    const parts = { jobs, people, machines, cells: [{ id: 'C1', places: 6, stations: 1 }] };
    expect(why(parts, 'A/10/1', runs)).toEqual({
      here: 'A op 10 starts on M1 at Mon 06:40: the load station of cell C1 is in use for the load of B op 10 until 06:20.',
      notEarlier: CANNOT,
      frees: [{ say: 'One more load station in cell C1: 20 min earlier', gain: 20 }],
      binding: ['station'],
    });
  });

  it('the operation before it is told from where that comes off when', () => {
    const jobs = [jobOf('A', [op('10', 'M2', 180), op('20', 'M1', 60)])];
    const runs = [
      { ...ahead, run: 'A/10/1', machine: 'M2', cut: ['06:20', '09:20'], unload: ['Anna', '09:20', '09:30'] },
      {
        run: 'A/20/1',
        machine: 'M1',
        pallet: 'P1',
        load: ['Anna', '09:30', '09:50'],
        cut: ['09:50', '10:50'],
        unload: ['Anna', '10:50', '11:00'],
      },
    ] as const;
    expect(why({ jobs }, 'A/20/1', runs)).toEqual({
      here: 'A op 20 starts on M1 at Mon 09:50: it waits for op 10, which is off M2 at 09:30.',
      notEarlier: CANNOT,
      frees: [{ say: 'Op 10 done already: 3 h 10 min earlier', gain: 190 }],
      binding: ['route'],
    });
  });

  it('its release is told when that is', () => {
    const jobs = [jobOf('A', [op('10', 'M1', 60)], { release: '2026-11-30T09:00' })];
    const run = {
      run: 'A/10/1',
      machine: 'M1',
      pallet: 'P1',
      load: ['Anna', '09:00', '09:20'],
      cut: ['09:20', '10:20'],
      unload: ['Anna', '10:30', '10:40'],
    } as const;
    expect(why({ jobs }, 'A/10/1', [run])).toEqual({
      here: 'A op 10 starts on M1 at Mon 09:20: A is released at 09:00.',
      notEarlier: CANNOT,
      frees: [{ say: 'A released at once: 3 h earlier', gain: 180 }],
      binding: ['release'],
    });
  });

  it('a tool is told which one, and when it is replaced', () => {
    const jobs = [jobOf('A', [op('10', 'M1', 60, { tools: [{ tool: 'EM16', minutes: 50 }] })])];
    const tools = [{ id: 'EM16', life: 100 }];
    const machines = [{ id: 'M1', kind: 'mill' as const, places: 2, magazine: [{ tool: 'EM16', left: [30] }] }];
    const run = {
      run: 'A/10/1',
      machine: 'M1',
      pallet: 'P1',
      load: ['Anna', '08:40', '09:00'],
      cut: ['09:05', '10:05'],
      unload: ['Anna', '10:30', '10:40'],
    } as const;
    const shop = shopWith({ horizonDays: 2, jobs, tools, machines });
    const start = planOf([run]).runs[0]!.start;
    const care: Plan['care'] = [
      {
        machine: 'M1',
        person: 'Anna',
        start: start - 5,
        end: start,
        acts: [{ tool: 'EM16', sister: 0, act: 'replace' }],
      },
    ];
    expect(whyRun(shop, legal(shop, [run], { care }), 'A/10/1')).toEqual({
      here: 'A op 10 starts on M1 at Mon 09:05: EM16 on M1 would not last for it before it is replaced at 09:05.',
      notEarlier: CANNOT,
      frees: [{ say: 'Tools without limit on M1: 2 h 45 min earlier', gain: 165 }],
      binding: ['tool'],
    });
  });

  it('somebody to be there because it is not proven is told what it has to earn', () => {
    const jobs = [jobOf('A', [op('10', 'M1', 300, { proof: { goodRuns: 1 } })])];
    const run = {
      run: 'A/10/1',
      machine: 'M1',
      pallet: 'P1',
      load: ['Anna', '12:00', '12:20'],
      cut: ['1 06:00', '1 11:00'],
      unload: ['Anna', '1 11:00', '1 11:10'],
    } as const;
    const found = why({ jobs }, 'A/10/1', [run], { now: '12:00' });
    expect(found.here).toBe(
      'A op 10 starts on M1 at Tue 06:00: A op 10 has 1 of the 3 good runs it needs before it may run alone.',
    );
    expect(found.frees).toEqual([
      { say: 'Trust to run alone: 17 h 40 min earlier', gain: 1060 },
      { say: 'A hand always there: 17 h 40 min earlier', gain: 1060 },
    ]);
    expect(found.binding).toEqual(['proof', 'person']);
  });

  it('the start it is locked to is told so', () => {
    const jobs = [jobOf('A', [op('10', 'M1', 60)])];
    const run = {
      run: 'A/10/1',
      machine: 'M1',
      pallet: 'P1',
      load: ['Anna', '06:00', '06:20'],
      cut: ['11:00', '12:00'],
      unload: ['Anna', '12:00', '12:10'],
    } as const;
    const floor = [{ run: 'A/10/1', state: 'locked' as const, start: '2026-11-30T11:00' }];
    expect(why({ jobs, floor }, 'A/10/1', [run])).toEqual({
      here: 'A op 10 starts on M1 at Mon 11:00: it is locked to start at 11:00.',
      notEarlier: CANNOT,
      frees: [{ say: 'No lock: 4 h 40 min earlier', gain: 280 }],
      binding: ['lock'],
    });
  });

  it('a machine that is planned off is told why and until when', () => {
    const closures = [{ from: '2026-11-30T06:00', to: '2026-11-30T09:00', why: 'spindle care' }];
    const machines = [{ id: 'M1', kind: 'mill' as const, places: 2, closures }];
    const run = {
      run: 'A/10/1',
      machine: 'M1',
      pallet: 'P1',
      load: ['Anna', '06:00', '06:20'],
      cut: ['09:00', '10:00'],
      unload: ['Anna', '10:30', '10:40'],
    } as const;
    expect(why({ jobs: [jobOf('A', [op('10', 'M1', 60)])], machines }, 'A/10/1', [run])).toEqual({
      here: 'A op 10 starts on M1 at Mon 09:00: M1 is planned off until 09:00 (spindle care).',
      notEarlier: CANNOT,
      frees: [{ say: 'M1 never planned off: 2 h 40 min earlier', gain: 160 }],
      binding: ['off'],
    });
  });

  it('the first piece of its operation is told when that passes', () => {
    const both = ['M1', 'M2'].map((machine) => ({ machine, cycle: 60 }));
    const jobs = [
      jobOf('A', [op('10', 'M1', 60, { machines: both, firstPiece: { after: 60, minutes: 20 } })], { quantity: 2 }),
    ];
    const runs = [
      {
        ...ahead,
        run: 'A/10/1',
        cut: ['06:20', '07:40'],
        check: ['Anna', '07:20', '07:40'],
        unload: ['Anna', '07:40', '07:50'],
      },
      {
        run: 'A/10/2',
        machine: 'M2',
        pallet: 'P1',
        load: ['Anna', '06:20', '06:40'],
        cut: ['07:40', '08:40'],
        unload: ['Anna', '08:40', '08:50'],
      },
    ] as const;
    expect(why({ jobs }, 'A/10/2', runs)).toEqual({
      here: 'A op 10 run 2 starts on M2 at Mon 07:40: the first piece of A op 10 passes its check at 07:40.',
      notEarlier: CANNOT,
      frees: [{ say: 'Its first piece passed already: 1 h earlier', gain: 60 }],
      binding: ['first-piece'],
    });
  });

  it('two things at once is told both, and that neither alone would do', () => {
    const bare = { load: 0, unload: 0 };
    const jobs = [jobOf('A', [op('10', 'M1', 60, bare)]), jobOf('B', [op('10', 'M1', 300, bare)])];
    const runs = [
      { run: 'B/10/1', machine: 'M1', pallet: 'P1', cut: ['06:00', '11:00'] },
      { run: 'A/10/1', machine: 'M1', pallet: 'P1', cut: ['11:00', '12:00'] },
    ] as const;
    expect(why({ jobs, pallets: [{ id: 'P1', fixture: 'F' }] }, 'A/10/1', runs)).toEqual({
      here: 'A op 10 starts on M1 at Mon 11:00: M1 is busy with B op 10 until 11:00 and the only pallet with fixture F is taken; P1 is on M1 with B op 10 until 11:00.',
      notEarlier: 'With every other run where it is, it cannot start earlier, and no one thing alone would let it.',
      frees: [{ say: 'M1 free of other work and one more pallet with fixture F: 5 h earlier', gain: 300 }],
      binding: ['machine', 'pallet'],
    });
  });
});

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
    const hog = { ...ahead, machine: 'M2', pallet: 'P1', cut: ['06:20', '1 15:40'] } as const;
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
