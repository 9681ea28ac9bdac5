import { describe, expect, it } from 'vitest';
import { codesOf, faultWith, type Small } from './small-shop';

const change =
  (more: object, job: object = {}) =>
  (s: Small) => {
    Object.assign(s.jobs[0]!, job);
    Object.assign(s.jobs[0]!.route[0]!, more);
  };

describe('a check', () => {
  const check = (repeat: number, chance = 0.1) => change({ checks: [{ name: 'Width', chance, repeat, most: 2 }] });

  it('that repeats more than the whole cycle is refused, to the minute', () => {
    const fault = faultWith('repeat-over-cycle', check(61));
    expect(fault).toMatchObject({ level: 'error', at: ['jobs', 0, 'route', 0, 'checks', 0, 'repeat'] });
    expect(fault.say).toMatch(
      /^Job J-1, operation 10, check Width, repeat: it cuts 1 h 01 min again, .* 1 h on M1; give/,
    );
    expect(codesOf(check(60)).filter((code) => code.startsWith('repeat'))).toEqual([]);
  });

  it('is measured by the shortest cycle', () => {
    const faster = (s: Small): void => {
      check(50)(s);
      s.machines.push({ ...s.machines[0]!, id: 'M2' });
      s.jobs[0]!.route[0]!.machines.push({ machine: 'M2', cycle: 49 });
    };
    expect(faultWith('repeat-over-cycle', faster).say).toMatch(/whole cycle of 49 min on M2/);
  });

  it('that goes back and cuts nothing gets a warning; one that never goes back does not', () => {
    const fault = faultWith('repeat-empty', check(0));
    expect(fault.level).toBe('warning');
    expect(fault.say).toMatch(
      /may go back 2 times, yet takes no time to; give the minutes cut again, or set the chance/,
    );
    expect(codesOf(check(0, 0))).toEqual([]);
  });
});

describe('a suspect limit', () => {
  const limit = (suspectLimit: number, more: object = {}) =>
    change({ perPallet: 4, ...more }, { quantity: 8, suspectLimit });

  it('smaller than what a pallet carries keeps unchecked runs attended, and says so', () => {
    const fault = faultWith('suspect-attended', limit(3));
    expect(fault).toMatchObject({ level: 'warning', at: ['jobs', 0, 'route', 0, 'perPallet'] });
    expect(fault.say).toMatch(
      /its runs are attended only: a pallet carries 4 parts, .* J-1 allows 3 between two checks/,
    );
    expect(codesOf(limit(4))).toEqual([]);
  });

  it('is no matter where a check looks at the parts, at a bench, or where there are no more parts', () => {
    expect(codesOf(limit(3, { checks: [{ name: 'Width' }] }))).toEqual([]);
    const bench = (s: Small): void => {
      limit(3)(s);
      Object.assign(s.machines[0]!, { kind: 'bench' });
    };
    expect(codesOf(bench)).toEqual([]);
    expect(codesOf(change({ perPallet: 4 }, { quantity: 2, suspectLimit: 3 }))).toEqual([]);
  });
});

describe('a proof', () => {
  const proof = (earned: object, revision = 'B') => change({ revision, proof: { goodRuns: 5, ...earned } });

  it('earned with another revision counts no more, and says so', () => {
    const fault = faultWith('proof-lost', proof({ revision: 'A' }));
    expect(fault).toMatchObject({ level: 'warning', at: ['jobs', 0, 'route', 0, 'proof'] });
    expect(fault.say).toMatch(
      /^Job J-1, operation 10, proof: it counts no more: .* revision A, and the program now is B\./,
    );
    expect(fault.say).toMatch(/attended until it is proven anew; correct the revision if that is wrong/);
    expect(faultWith('proof-lost', proof({ revision: 'A' }, '')).say).toMatch(/the program now is none/);
  });

  it('earned with other tools counts no more, and says so', () => {
    const other = (s: Small): void => {
      s.tools.push({ id: 'BN06', life: 90 });
      proof({ tools: ['EM10', 'BN06'] })(s);
    };
    expect(faultWith('proof-lost', other).say).toMatch(/with the tools BN06 EM10, and the operation now uses EM10\./);
  });

  it('earned with these, or with nobody knows what, is no fault, nor is one of too few good runs', () => {
    expect(codesOf(proof({ revision: 'B', tools: ['EM10'] }))).toEqual([]);
    expect(codesOf(proof({}))).toEqual([]);
    expect(codesOf(proof({ goodRuns: 0 }))).toEqual([]);
  });
});
