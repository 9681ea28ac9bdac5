import { describe, expect, it } from 'vitest';
import { demoShop, differenceSentences, type Shop, withDifferences } from '../../../core/shop';

const base = demoShop('2026-11-25');

function withMachine(shop: Shop, id: string, change: Partial<Shop['machines'][number]>): Shop {
  return {
    ...shop,
    machines: shop.machines.map((machine) => (machine.id === id ? { ...machine, ...change } : machine)),
  };
}

describe('differences between two shops', () => {
  const [first, second] = base.machines;
  const [pallet] = base.pallets;
  if (first === undefined || second === undefined || pallet === undefined) throw new Error('the demo is too small');

  it('are none between a shop and itself', () => {
    expect(differenceSentences(base, structuredClone(base))).toEqual([]);
  });

  it('name the row, the field and both values', () => {
    const after = withMachine(base, first.id, { nightFraction: 0.5, inUse: false });
    expect(differenceSentences(base, after)).toEqual([
      `Machine ${first.id}: in use yes → no`,
      `Machine ${first.id}: night fraction ${first.nightFraction} → 0.5`,
    ]);
  });

  it('name rows that were added and taken out', () => {
    const after = { ...base, pallets: [...base.pallets.slice(1), { ...pallet, id: 'P-new' }] };
    expect(differenceSentences(base, after)).toEqual([`Pallet ${pallet.id} taken out`, 'Pallet P-new added']);
  });

  it('name settings of the shop down to the single weight', () => {
    const after = { ...base, weights: { ...base.weights, tonight: 9 } };
    expect(differenceSentences(base, after)).toEqual([`Shop: weights, tonight ${base.weights.tonight} → 9`]);
  });

  it('of a copy come into the shop beside what was changed there meanwhile', () => {
    const theirs = withMachine(base, first.id, { ratePerHour: 77 });
    const mine = { ...withMachine(base, second.id, { ratePerHour: 55 }), name: 'Renamed meanwhile' };
    const merged = withDifferences(mine, base, theirs);
    expect(merged).toEqual(withMachine(mine, first.id, { ratePerHour: 77 }));
  });

  it('of a copy win where both changed the same row', () => {
    const theirs = withMachine(base, first.id, { ratePerHour: 77 });
    const mine = withMachine(base, first.id, { ratePerHour: 55 });
    expect(withDifferences(mine, base, theirs)).toEqual(theirs);
  });

  it('of a copy bring its new rows, take out those it took out, and leave rows that are new here', () => {
    const theirs = { ...base, pallets: [...base.pallets.slice(1), { ...pallet, id: 'P-theirs' }] };
    const mine = { ...base, pallets: [...base.pallets, { ...pallet, id: 'P-mine' }] };
    const ids = withDifferences(mine, base, theirs).pallets.map(({ id }) => id);
    expect(ids).toEqual([...base.pallets.slice(1).map(({ id }) => id), 'P-mine', 'P-theirs']);
  });

  it('make a shop that nobody else changed the same as the copy', () => {
    const theirs = withMachine({ ...base, horizonDays: 3 }, first.id, { ratePerHour: 77 });
    expect(withDifferences(base, base, theirs)).toEqual(theirs);
  });
});
