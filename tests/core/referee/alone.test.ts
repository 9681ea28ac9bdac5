import { describe, expect, it } from 'vitest';
import type { ShopInput } from '../../../core/shop';
import { broken, handless, jobOf, planned, shopOf, t } from './fixture';

type Operation = NonNullable<ShopInput['jobs']>[number]['route'][number];

// The last person leaves at 22:00, the first comes at 06:00.
const shop = (more: Partial<Operation>, job: object = {}) => shopOf([jobOf('A', [handless(more)], job)]);
const run = (start: number) => [planned('A/10/1', 'M1', start, start + 60)];

describe('work with nobody there', () => {
  it('is not asked what it has earned where nobody keeps count', () => {
    expect(broken(shop({}), run(t('23:00')))).toEqual([]);
  });

  it('needs its attended good runs before it may run alone for a minute', () => {
    const unproven = shop({ proof: { goodRuns: 2, longestAlone: 0 } });
    expect(broken(unproven, run(t('21:00')))).toEqual([]);
    expect(broken(unproven, run(t('21:01')))).toEqual(['9 alone A/10/1']);
  });

  it('may then run alone for a first step, and after that twice its longest time', () => {
    const step = (longestAlone: number, firstAlone: number) => ({
      ...shop({ proof: { goodRuns: 3, longestAlone } }),
      night: { ...shop({}).night, firstAlone },
    });
    expect(broken(step(0, 60), run(t('23:00')))).toEqual([]);
    expect(broken(step(0, 59), run(t('23:00')))).toEqual(['9 alone A/10/1']);
    expect(broken(step(30, 1), run(t('23:00')))).toEqual([]);
    expect(broken(step(29, 1), run(t('23:00')))).toEqual(['9 alone A/10/1']);
  });

  it('loses what it has earned with another revision or other tools', () => {
    const proof = { goodRuns: 9, longestAlone: 400, revision: 'A' };
    expect(broken(shop({ proof, revision: 'A' }), run(t('23:00')))).toEqual([]);
    expect(broken(shop({ proof, revision: 'B' }), run(t('23:00')))).toEqual(['9 alone A/10/1']);
    expect(broken(shop({ proof: { ...proof, tools: ['T'] }, revision: 'A' }), run(t('23:00')))).toEqual([
      '9 alone A/10/1',
    ]);
  });
});

describe('parts that nobody has looked at', () => {
  const three = (suspectLimit: number | null, more: Partial<Operation> = {}) =>
    shopOf([jobOf('A', [handless({ perPallet: 2, ...more })], { quantity: 6, suspectLimit })]);
  const nightly = (machines: [string, string, string]) =>
    machines.map((machine, i) => planned(`A/10/${i + 1}`, machine, t('22:00') + 60 * i, t('23:00') + 60 * i));

  it('may be as many as the job allows, and not one more', () => {
    expect(broken(three(6), nightly(['M1', 'M1', 'M1']))).toEqual([]);
    expect(broken(three(5), nightly(['M1', 'M1', 'M1']))).toEqual(['9 suspect A/10/1 A/10/2 A/10/3']);
    expect(broken(three(null), nightly(['M1', 'M1', 'M1']))).toEqual([]);
  });

  it('are counted machine by machine', () => {
    expect(broken(three(4), nightly(['M1', 'M2', 'M1']))).toEqual([]);
  });

  it('are none where the machine checks each pallet itself', () => {
    expect(broken(three(1, { checks: [{ chance: 0, repeat: 0 }] }), nightly(['M1', 'M1', 'M1']))).toEqual([]);
  });

  it('are none while somebody is there', () => {
    const byDay = [0, 1, 2].map((i) => planned(`A/10/${i + 1}`, 'M1', t('08:00') + 60 * i, t('09:00') + 60 * i));
    expect(broken(three(1), byDay)).toEqual([]);
  });
});
