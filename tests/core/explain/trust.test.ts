import { describe, expect, it } from 'vitest';
import { lateJobs } from '../../../core/explain';
import type { ShopInput } from '../../../core/shop';
import { at, jobOf, type OperationInput, planOf } from '../measure/fixture';
import { gapsAt, op, shopWith } from './gaps-fixture';

// Own instances: nobody is there from 14:00 to 06:00. Three good runs are needed, then two hours alone come first.

const tomorrow = {
  run: 'A/10/1',
  machine: 'M1',
  pallet: 'P1',
  load: ['Anna', '1 06:00', '1 06:20'],
  cut: ['1 06:20', '1 11:20'],
} as const;

function nightOf(parts: Partial<OperationInput>, job: object = {}, shop: Partial<ShopInput> = {}) {
  const jobs = [jobOf('A', [op('10', 'M1', 300, parts)], job)];
  return gapsAt(shopWith({ jobs, ...shop }), planOf([tomorrow]), 'M1', '14:00', '1 06:00');
}

const dry = (why: string) => [[at('14:00'), at('1 06:00'), 'dry', `Dry until Tue 06:00: ${why}.`]];

describe('a night in which only work is left that may not run alone', () => {
  it('says how many good runs are still missing', () => {
    const why = 'A op 10 has 2 of the 3 good runs it needs before it may run alone';
    expect(nightOf({ proof: { goodRuns: 2 } })).toEqual(dry(why));
  });

  it('says that the proof was lost with the revision or the tools it was earned with', () => {
    const lost = { revision: 'C', proof: { goodRuns: 9, longestAlone: 600, revision: 'B' } };
    const why =
      'the program or the tools of A op 10 have changed, and it needs 3 good runs with somebody here before it may run alone';
    expect(nightOf(lost)).toEqual(dry(why));
  });

  it('says how long it may run alone and how long it would', () => {
    const why = 'A op 10 has earned 2 h alone and would cut 5 h';
    expect(nightOf({ proof: { goodRuns: 3 } })).toEqual(dry(why));
  });

  it('says how many parts nobody would have looked at', () => {
    const why = 'A would have 6 parts made before anybody looks; 4 are allowed';
    expect(nightOf({ perPallet: 6 }, { quantity: 6, suspectLimit: 4 })).toEqual(dry(why));
  });

  it('counts the parts of the other runs of the job in that night', () => {
    const jobs = [jobOf('A', [op('10', 'M1', 300, { perPallet: 3 })], { quantity: 6, suspectLimit: 4 })];
    const first = {
      ...tomorrow,
      load: ['Anna', '13:20', '13:40'],
      cut: ['13:40', '18:40'],
      unload: ['Anna', '1 06:00', '1 06:10'],
    } as const;
    const second = {
      run: 'A/10/2',
      machine: 'M1',
      pallet: 'P2',
      load: ['Anna', '13:40', '14:00'],
      cut: ['1 06:00', '1 11:00'],
      unload: ['Anna', '1 11:00', '1 11:10'],
    } as const;
    const why = 'P2 is loaded, but A would have 6 parts made before anybody looks; 4 are allowed';
    expect(gapsAt(shopWith({ jobs }), planOf([first, second]), 'M1', '19:00', '1 05:00')).toEqual([
      [at('18:40'), at('1 06:00'), 'hand', `Waits for a hand until Tue 06:00: ${why}.`],
    ]);
  });

  it('says which tool a night may not use up so far', () => {
    const tools = [{ id: 'EM16', life: 100, finish: true }];
    const why = 'A op 10 takes 1 h 30 min of EM16, and with nobody here a fresh one may give 1 h 20 min';
    expect(nightOf({ tools: [{ tool: 'EM16', minutes: 90 }] }, {}, { tools })).toEqual(dry(why));
  });

  it('says nothing of trust while other work could have run', () => {
    const jobs = [jobOf('A', [op('10', 'M1', 300, { proof: { goodRuns: 2 } })]), jobOf('B', [op('10', 'M1', 300)])];
    const other = { ...tomorrow, run: 'B/10/1', pallet: 'P2', cut: ['1 11:20', '1 16:20'] } as const;
    const [gap] = gapsAt(shopWith({ jobs }), planOf([tomorrow, other]), 'M1', '14:00', '1 06:00');
    expect(gap).toEqual([
      ...[at('14:00'), at('1 06:00'), 'dry'],
      'Dry until Tue 06:00: nothing is loaded and nobody is here to load.',
    ]);
  });

  it('says so of the first where several may not for reasons of their own', () => {
    const proof = { goodRuns: 2 };
    const jobs = ['A', 'B'].map((id) => jobOf(id, [op('10', 'M1', 300, { proof })]));
    const other = { ...tomorrow, run: 'B/10/1', pallet: 'P2', cut: ['1 11:20', '1 16:20'] } as const;
    const why =
      'A op 10 has 2 of the 3 good runs it needs before it may run alone, and nothing else that is left may run alone either';
    expect(gapsAt(shopWith({ jobs }), planOf([tomorrow, other]), 'M1', '14:00', '1 06:00')).toEqual(dry(why));
  });
});

it('a machine waits in the afternoon with what would cut on into the night', () => {
  const jobs = [jobOf('A', [op('10', 'M1', 300, { proof: { goodRuns: 2 } })])];
  const gaps = gapsAt(shopWith({ jobs }), planOf([tomorrow], { now: '13:40' }), 'M1', '13:40', '14:00');
  expect(gaps[0]?.[3]).toContain('A op 10 has 2 of the 3 good runs it needs before it may run alone');
});

describe('a late job', () => {
  const late = { due: '2026-12-01T08:00' };
  const why = (parts: Partial<OperationInput>) => {
    const jobs = [jobOf('A', [op('10', 'M1', 300, parts)], late)];
    return lateJobs(shopWith({ jobs }), planOf([{ ...tomorrow, unload: ['Anna', '1 11:20', '1 11:30'] }]))[0]?.why;
  };

  it('says that it waited for somebody to be here, as it may not run alone', () => {
    expect(why({ proof: { goodRuns: 2 } })).toBe(
      'Op 10 waits 24 h for somebody to be here: A op 10 has 2 of the 3 good runs it needs before it may run alone.',
    );
  });

  it('does not say so of what may', () => {
    expect(why({})).not.toContain('alone');
  });
});
