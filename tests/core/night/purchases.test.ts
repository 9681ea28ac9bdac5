import { describe, expect, it } from 'vitest';
import { offersFor, priceOffer, priceOrder, simulateNights } from '../../../core/night';
import { faultsOf, type Plan, parseShop } from '../../../core/shop';
import { at, nightOf } from './night-shop';

const options = { nights: 500, seed: 1 };
const dressing = { every: 60, minutes: 10, by: 'hand' as const };
const night = nightOf([{ minutes: 240, operation: { odds: { block: 0.1, loss: 0 } } }], {
  machines: [
    { id: 'M1', kind: 'mill', places: 4, nightFraction: 1, ratePerHour: 50, magazine: [{ tool: 'T', left: [30] }] },
  ],
  cells: [{ id: 'C', places: 2 }],
  tools: [
    { id: 'T', life: 60 },
    { id: 'W', kind: 'wheel', life: 600, dressing },
  ],
  pallets: [{ id: 'P1', fixture: 'F' }],
});
const care = { machine: 'M1', person: 'P', start: at('20:30'), end: at('20:45') };
const plan: Plan = {
  ...night.plan,
  runs: night.plan.runs.map((run) => ({ ...run, pallet: 'P1' })),
  care: [
    {
      ...care,
      acts: [
        { tool: 'T', sister: 0, act: 'replace' },
        { tool: 'W', sister: 0, act: 'dress' },
      ],
    },
  ],
};
const offers = offersFor(night.shop, plan, simulateNights(night.shop, plan, options), null);
const offer = (say: RegExp) => offers.find((each) => say.test(each.say))!;

describe('what is offered for a night', () => {
  it('is one more of each thing it uses', () => {
    expect(offers.map(({ say }) => say)).toEqual([
      'One more pallet with fixture F',
      'One more place at M1',
      'One more place in cell C',
      'One more T in M1',
      'One more W in M1',
      'W dressed by the machine',
      'Half an hour more of P',
      'A visit of half an hour at 02:00',
    ]);
  });

  it('leaves shops that can be read and planned', () => {
    for (const { say, shop } of offers) {
      expect(parseShop(shop).ok, say).toBe(true);
      expect(
        faultsOf(shop, '2026-11-02T20:00').filter(({ level }) => level === 'error'),
        say,
      ).toEqual([]);
    }
  });

  it('changes what it says and nothing else', () => {
    expect(offer(/place at M1/).shop.machines[0]!.places).toBe(5);
    expect(offer(/One more T/).shop.machines[0]!.magazine).toEqual([{ tool: 'T', left: [30, 60] }]);
    expect(offer(/dressed/).shop.tools[1]!.dressing?.by).toBe('machine');
    expect(offer(/Half an hour/).shop.people[0]!.exceptions).toEqual([
      { date: '2026-11-02', hours: [{ from: '06:00', to: '22:30' }] },
    ]);
    expect(offer(/visit/).shop.people[0]!.exceptions).toEqual([
      {
        date: '2026-11-03',
        hours: [
          { from: '06:00', to: '22:00' },
          { from: '02:00', to: '02:30' },
        ],
      },
    ]);
  });
});

describe('a price', () => {
  const base = { shop: night.shop, plan: night.plan };

  it('is nothing where planning anew brings nothing', async () => {
    const price = await priceOffer(offer(/pallet/), base, async (_, previous) => previous, options, new Map());
    expect(price).toMatchObject({ hours: 0, money: 0, lateness: 0, dual: null });
  });

  it('is the hours more, in money at the rate of the machines, beside the dual price', async () => {
    // The same four hours without their odds: a tenth of them more.
    const safe = nightOf([{ minutes: 240 }], { machines: night.shop.machines });
    const better = { ...offer(/pallet/), shop: safe.shop };
    const price = await priceOffer(better, base, async () => safe.plan, options, new Map([['pallet F', 1.5]]));
    expect(Math.abs(price.hours - 0.4)).toBeLessThan(2 * price.halfWidth);
    expect(price.money).toBeCloseTo(50 * price.hours, 9);
    expect(price.dual).toBe(1.5);
  });

  it('of another order is what the best exchange gains, and nothing where none does', () => {
    const risky = nightOf([
      { minutes: 60, operation: { odds: { block: 0.4, loss: 0 } } },
      { minutes: 240, operation: { odds: { block: 0.01, loss: 0 } } },
    ]);
    expect(priceOrder(risky, options)).toMatchObject({ kind: 'order', say: 'J2/10/1 before J1/10/1 on M1' });
    expect(priceOrder(base, options)).toBeNull();
  });
});
