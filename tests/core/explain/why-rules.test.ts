import { describe, expect, it } from 'vitest';
import { whyRun } from '../../../core/explain';
import type { Plan } from '../../../core/shop';
import { jobOf, planOf } from '../measure/fixture';
import { op, shopWith } from './gaps-fixture';
import { AHEAD, CANNOT, legal, why } from './why-fixture';

describe('a run that must wait for', () => {
  it('the operation before it is told from where that comes off when', () => {
    const jobs = [jobOf('A', [op('10', 'M2', 180), op('20', 'M1', 60)])];
    const runs = [
      { ...AHEAD, run: 'A/10/1', machine: 'M2', cut: ['06:20', '09:20'], unload: ['Anna', '09:20', '09:30'] },
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
        ...AHEAD,
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
});
