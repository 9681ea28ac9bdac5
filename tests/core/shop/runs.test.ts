import { describe, expect, it } from 'vitest';
import { cutMinutes, runsOf } from '../../../core/shop';
import { shopWith } from './small-shop';

describe('runs', () => {
  const shop = shopWith((s) => {
    s.jobs[0]!.quantity = 10;
    Object.assign(s.jobs[0]!.route[0]!, { perPallet: 4 });
  });

  it('are as many as pallets are needed, the last with the parts that are left', () => {
    expect(runsOf(shop).map((run) => [run.id, run.firstPart, run.parts])).toEqual([
      ['J-1/10/1', 0, 4],
      ['J-1/10/2', 4, 4],
      ['J-1/10/3', 8, 2],
    ]);
  });

  it('cut a share of the cycle when the pallet is not full, rounded up', () => {
    const [full, , half] = runsOf(shop);
    expect(full && cutMinutes(full, 75)).toBe(75);
    expect(half && cutMinutes(half, 75)).toBe(38);
  });
});
