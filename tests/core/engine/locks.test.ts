import { describe, expect, it } from 'vitest';
import { planShop } from '../../../core/engine';
import { referee } from '../../../core/referee';
import { type Plan, parseShop, type Shop, type ShopInput } from '../../../core/shop';

const AT = '2026-11-30T13:00';

/** One mill with two places, one person, one job of four runs of two hours. */
function smallShop(change: Partial<ShopInput> = {}): Shop {
  const parsed = parseShop({
    format: 'nightload-shop',
    version: 1,
    name: 'Small',
    zone: 'Europe/Berlin',
    horizonDays: 4,
    planFrom: AT,
    people: [{ id: 'Ada', hours: [{ days: ['mon', 'tue', 'wed', 'thu', 'fri'], from: '06:00', to: '22:00' }] }],
    machines: [{ id: 'M1', kind: 'mill', places: 2 }],
    pallets: [
      { id: 'P1', fixture: 'vice' },
      { id: 'P2', fixture: 'vice' },
      { id: 'P3', fixture: 'plate' },
    ],
    jobs: [
      {
        id: 'J',
        quantity: 4,
        due: '2026-12-03T12:00',
        route: [{ id: '10', machines: [{ machine: 'M1', cycle: 120 }], fixture: 'vice', load: 10, unload: 10 }],
      },
    ],
    ...change,
  });
  if (!parsed.ok) throw new Error(parsed.faults[0]?.say);
  return parsed.value;
}

async function planned(shop: Shop): Promise<Plan> {
  let tick = 0;
  return planShop(shop, { at: AT, seconds: Number.POSITIVE_INFINITY, steps: 40, seed: 1, clock: () => tick++ });
}

function run(plan: Plan, id: string) {
  const found = plan.runs.find((r) => r.run === id);
  if (found === undefined) throw new Error(`${id} is not in the plan`);
  return found;
}

describe('what is held', () => {
  it('starts a locked run at the minute it is locked to', async () => {
    const shop = smallShop({ floor: [{ run: 'J/10/2', state: 'locked', start: '2026-12-01T09:07' }] });
    const plan = await planned(shop);
    expect(run(plan, 'J/10/2').start).toBe(24 * 60 + 9 * 60 + 7);
    expect(plan.conflicts).toEqual([]);
    expect(referee(shop, plan).legal).toBe(true);
  });

  it('leaves a running run where it runs and loads nothing twice', async () => {
    const shop = smallShop({
      floor: [{ run: 'J/10/1', state: 'running', machine: 'M1', pallet: 'P2', start: '2026-11-30T12:10' }],
    });
    const plan = await planned(shop);
    expect(run(plan, 'J/10/1')).toMatchObject({ pallet: 'P2', load: null, start: 12 * 60 + 10, end: 14 * 60 + 10 });
    expect(plan.runs.filter((r) => r.run !== 'J/10/1').every((r) => r.start >= 14 * 60 + 10)).toBe(true);
  });

  it('keeps a lock that cannot hold where it is, and says so', async () => {
    const shop = smallShop({
      floor: [
        { run: 'J/10/1', state: 'locked', start: '2026-12-01T09:00' },
        { run: 'J/10/2', state: 'locked', start: '2026-12-01T09:30' },
      ],
    });
    const plan = await planned(shop);
    expect(run(plan, 'J/10/1').start).toBe(33 * 60);
    expect(run(plan, 'J/10/2').start).toBe(33 * 60 + 30);
    expect(plan.conflicts).toHaveLength(1);
    expect(plan.conflicts[0]).toMatchObject({ run: 'J/10/2', say: expect.stringContaining('M1 is not free then') });
    expect(plan.bound).toBeNull();
    const verdict = referee(shop, plan);
    expect(verdict.breaches).toEqual([]);
    expect(verdict.conflicts.length).toBeGreaterThan(0);
  });

  it('keeps a run on a pallet that does not suit, and says so', async () => {
    const shop = smallShop({ floor: [{ run: 'J/10/1', state: 'locked', pallet: 'P3' }] });
    const plan = await planned(shop);
    expect(run(plan, 'J/10/1').pallet).toBe('P3');
    expect(plan.conflicts[0]?.say).toContain('P3, which does not fit');
    expect(referee(shop, plan).breaches).toEqual([]);
  });

  it('brings forward what a locked run waits for', async () => {
    const route = [
      { id: '10', machines: [{ machine: 'M1', cycle: 120 }], fixture: 'vice', load: 10, unload: 10 },
      { id: '20', machines: [{ machine: 'M1', cycle: 60 }], fixture: 'vice', load: 10, unload: 10 },
    ];
    const shop = smallShop({
      jobs: [
        { id: 'A', quantity: 3, due: '2026-11-30T15:30', weight: 5, route: [route[0]!] },
        { id: 'J', quantity: 1, due: '2026-12-03T12:00', route },
      ],
      floor: [{ run: 'J/20/1', state: 'locked', start: '2026-11-30T16:00' }],
    });
    const plan = await planned(shop);
    expect(run(plan, 'J/20/1').start).toBe(16 * 60);
    expect(run(plan, 'J/10/1').unload!.end).toBeLessThanOrEqual(run(plan, 'J/20/1').load!.start);
    expect(plan.conflicts).toEqual([]);
    expect(referee(shop, plan).legal).toBe(true);
  });

  it('says so where nobody comes any more to check and take off what runs', async () => {
    const shop = smallShop({
      horizonDays: 1,
      people: [{ id: 'Ada', hours: [{ days: ['mon'], from: '06:00', to: '12:00' }] }],
      jobs: [
        {
          id: 'J',
          due: '2026-12-03T12:00',
          route: [
            {
              id: '10',
              machines: [{ machine: 'M1', cycle: 120 }],
              fixture: 'vice',
              load: 10,
              unload: 10,
              firstPiece: { after: 90, minutes: 10 },
            },
          ],
        },
      ],
      floor: [{ run: 'J/10/1', state: 'running', machine: 'M1', pallet: 'P1', start: '2026-11-30T12:10' }],
    });
    const plan = await planned(shop);
    expect(plan.conflicts.map((conflict) => conflict.run)).toContain('J/10/1');
    expect(plan.conflicts[0]?.say).toContain('nobody can check its first piece');
    const verdict = referee(shop, plan);
    expect(verdict.breaches).toEqual([]);
    expect(verdict.conflicts.length).toBeGreaterThan(0);
  });

  it('leaves out what does not fit before the horizon, and says why', async () => {
    const shop = smallShop({
      horizonDays: 1,
      jobs: [
        {
          id: 'J',
          quantity: 9,
          due: '2026-12-03T12:00',
          route: [{ id: '10', machines: [{ machine: 'M1', cycle: 120 }], fixture: 'vice', load: 10, unload: 10 }],
        },
      ],
    });
    const plan = await planned(shop);
    expect(plan.left.length).toBeGreaterThan(0);
    expect(plan.left[0]?.why).toContain('no room before the horizon');
    expect(referee(shop, plan).legal).toBe(true);
  });
});

describe('the night', () => {
  it('cuts no more pallets unattended than the machine has places', async () => {
    const shop = smallShop({ horizonDays: 3 });
    const plan = await planned(shop);
    const [nightStart, nightEnd] = [22 * 60, 30 * 60];
    const inNight = plan.runs.filter((r) => r.start < nightEnd && r.end > nightStart);
    expect(inNight.length).toBeLessThanOrEqual(2);
    // Two pallets of two hours each, loaded before the person leaves, are the most this shop can cut in a night.
    expect(plan.bound?.tonight).toBeCloseTo(4, 6);
  });
});
