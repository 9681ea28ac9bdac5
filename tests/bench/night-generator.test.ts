import { describe, expect, it } from 'vitest';
import { faultsOf, runsOf } from '../../core/shop';
import { NIGHT_SIZES, nightShop } from './night-generator';

describe.each(NIGHT_SIZES)('a generated night of $machines machines and $runs runs', (size) => {
  it.each([1, 2, 3])('has no faults, and machines and runs as asked, by seed %i', (seed) => {
    const shop = nightShop(size, seed);
    expect(faultsOf(shop, shop.planFrom!).filter(({ level }) => level === 'error')).toEqual([]);
    expect(shop.machines).toHaveLength(size.machines);
    expect(runsOf(shop)).toHaveLength(size.runs);
  });

  it('is the same again by the same seed, and another by another', () => {
    expect(nightShop(size, 7)).toEqual(nightShop(size, 7));
    expect(nightShop(size, 7).jobs).not.toEqual(nightShop(size, 8).jobs);
  });
});
