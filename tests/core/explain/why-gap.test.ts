import { describe, expect, it } from 'vitest';
import { whyGap } from '../../../core/explain';
import type { Shop } from '../../../core/shop';
import { at, jobOf } from '../measure/fixture';
import { op, shopWith } from './gaps-fixture';
import { legal } from './why-fixture';

// Own instances throughout: Anna is in the shop from 06:00 to 14:00, her break is from 10:00 to 10:30.

const BOTH = { machines: ['M1', 'M2'].map((machine) => ({ machine, cycle: 180 })) };
const first = {
  run: 'B/10/1',
  machine: 'M1',
  pallet: 'P1',
  load: ['Anna', '06:00', '06:20'],
  cut: ['06:20', '09:20'],
  unload: ['Anna', '09:20', '09:30'],
} as const;
const next = {
  run: 'A/10/1',
  machine: 'M1',
  pallet: 'P1',
  load: ['Anna', '09:30', '09:50'],
  cut: ['09:50', '12:50'],
  unload: ['Anna', '12:50', '13:00'],
} as const;

describe('a machine that stands', () => {
  const shop = shopWith({
    horizonDays: 2,
    jobs: [jobOf('A', [op('10', 'M1', 180, BOTH)]), jobOf('B', [op('10', 'M1', 180)])],
    pallets: [{ id: 'P1', fixture: 'F' }],
  });
  const plan = legal(shop, [first, next]);

  it('is told what would let a run that comes later begin there, wherever the plan has that run', () => {
    const why = whyGap(shop, plan, 'M2', at('06:00'));
    expect(why.here).toMatch(/^Dry until /);
    expect(why.notEarlier).toBe(
      'With every other run where it is, the one run still to come for it cannot start in it.',
    );
    // Loaded from 06:20, when Anna has loaded B; from 09:30 on A is loaded, and what is left has no more work.
    expect(why.frees).toEqual([
      { say: 'One more pallet with fixture F: A op 10 could start at 06:40 and cut 2 h 50 min of it', gain: 170 },
    ]);
    expect(why.binding).toEqual(['pallet']);
  });

  it('is told which run could begin there as things are, and what that would cost', () => {
    const two = { ...shop, pallets: [...shop.pallets, { ...shop.pallets[0]!, id: 'P2' }] };
    const why = whyGap(two, legal(two, [first, next]), 'M2', at('06:30'));
    expect(why.here).toMatch(
      /A op 10 could start here at 06:40 with every other run where it is; the plan has it on M1 at 09:50\. That would /,
    );
    expect(why).toMatchObject({ notEarlier: null, frees: [], binding: ['choice'] });
  });

  it('has nothing to ask about where no work is left for it', () => {
    const only = shopWith({ horizonDays: 2, jobs: [jobOf('B', [op('10', 'M1', 180)])] });
    expect(whyGap(only, legal(only, [first]), 'M2', at('08:00'))).toEqual({
      here: 'Nothing due until Mon 14:00: no work is left that it can do.',
      notEarlier: null,
      frees: [],
      binding: [],
    });
  });

  it('is told what would let in a run that is left out', () => {
    const away = {
      ...shop,
      jobs: shop.jobs.map((job) => ({ ...job, route: job.route.map((o) => ({ ...o, unload: 0 })) })),
    };
    const { unload, ...hog } = { ...first, cut: ['06:20', '09:20'] as const };
    const held = { ...away, jobs: away.jobs.map((job) => (job.id === 'B' ? withCycle(job, 2400) : job)) };
    const plan = legal(held, [{ ...hog, cut: ['06:20', '1 22:20'] }], { left: [{ run: 'A/10/1', why: 'no room.' }] });
    expect(whyGap(held, plan, 'M2', at('07:00')).frees).toContainEqual({
      say: 'One more pallet with fixture F: A op 10 could start at 06:40 and cut 3 h of it',
      gain: 180,
    });
  });

  it('is refused a time at which it does not stand, or a machine that is not there', () => {
    expect(() => whyGap(shop, plan, 'M1', at('07:00'))).toThrow('M1 does not stand');
    expect(() => whyGap(shop, plan, 'M9', at('07:00'))).toThrow('M9 does not stand');
  });
});

function withCycle(job: Shop['jobs'][number], cycle: number): Shop['jobs'][number] {
  return {
    ...job,
    route: job.route.map((one) => ({ ...one, machines: one.machines.map(({ machine }) => ({ machine, cycle })) })),
  };
}
