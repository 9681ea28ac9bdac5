import { describe, expect, it } from 'vitest';
import { referee } from '../../../core/referee';
import { brief, broken, handless, jobOf, planned, planOf, shopOf, t } from './fixture';

const shop = shopOf([jobOf('A', [handless()])]);
const run = planned('A/10/1', 'M1', t('08:00'), t('09:00'));
const left = (name: string) => ({ left: [{ run: name, why: 'no room' }] });

describe('naming the runs', () => {
  it('takes every run planned or left out, once', () => {
    expect(broken(shop, [run])).toEqual([]);
    expect(broken(shop, [], left('A/10/1'))).toEqual([]);
  });

  it('misses a run that is neither', () => {
    expect(broken(shop, [])).toEqual(['0 missing-run A/10/1']);
  });

  it('refuses a run that is planned twice, or planned and left out', () => {
    const again = planned('A/10/1', 'M2', t('08:00'), t('09:00'));
    expect(broken(shop, [run, again])).toEqual(['0 repeated-run A/10/1']);
    expect(broken(shop, [run], left('A/10/1'))).toEqual(['0 repeated-run A/10/1']);
  });

  it('refuses a run that no job calls for', () => {
    const stray = planned('A/10/2', 'M1', t('09:00'), t('10:00'));
    expect(broken(shop, [run, stray])).toEqual(['0 unknown-run A/10/2']);
    expect(broken(shop, [run], left('Z/1/1'))).toEqual(['0 unknown-run Z/1/1']);
  });
});

describe('the clock and the horizon of a plan', () => {
  const plan = planOf(shop, [run]);
  const verdict = (more: object) => referee(shop, planOf(shop, [run], more)).breaches.map(brief);

  it('count from the midnight that begins the day of its moment', () => {
    expect(verdict({})).toEqual([]);
    expect(verdict({ clock: { ...plan.clock, zone: 'Europe/London' } })).toEqual(['0 clock']);
    expect(verdict({ clock: { ...plan.clock, origin: plan.clock.origin + 60_000 } })).toContain('0 clock');
  });

  it('have the moment on that day', () => {
    expect(verdict({ now: 0 })).toEqual([]);
    expect(verdict({ now: -1 })).toEqual(['0 clock']);
    const late = planned('A/10/1', 'M1', t('08:00', 1), t('09:00', 1));
    const at = (now: number) => broken(shop, [late], { now });
    expect(at(1439)).toEqual([]);
    expect(at(1440)).toEqual(['0 clock']);
  });

  it('end the plan as many days later as the shop plans ahead', () => {
    expect(plan.horizon).toBe(3 * 1440);
    expect(verdict({ horizon: 3 * 1440 + 1 })).toEqual(['0 horizon-claimed']);
    expect(verdict({ horizon: 3 * 1440 - 1 })).toEqual(['0 horizon-claimed']);
  });
});

describe('the cost a plan states', () => {
  const plan = planOf(shop, [run]);
  const stating = (cost: Partial<typeof plan.cost>) =>
    referee(shop, { ...plan, cost: { ...plan.cost, ...cost } }).breaches.map(brief);

  it('may differ by the noise of adding up, and by no more', () => {
    expect(stating({ total: plan.cost.total + 0.9e-6 })).toEqual([]);
    expect(stating({ total: plan.cost.total + 1.1e-6 })).toEqual(['0 cost']);
  });

  it.each(['lateness', 'tonight', 'laterNights', 'morning', 'rounds', 'extraHours', 'finish', 'total'] as const)(
    'is checked in %s',
    (part) => {
      expect(stating({ [part]: plan.cost[part] + 1 })).toEqual(['0 cost']);
    },
  );

  it('is checked in moved once the released plan is known', () => {
    const claim = { ...plan, cost: { ...plan.cost, moved: 1, total: plan.cost.total + 0.1 } };
    expect(referee(shop, claim).legal).toBe(true);
    expect(referee(shop, claim, plan).breaches.map(brief)).toEqual(['0 cost']);
    expect(referee(shop, plan, plan).legal).toBe(true);
  });

  it('is named part by part', () => {
    const claim = { ...plan, cost: { ...plan.cost, rounds: 7 } };
    expect(referee(shop, claim).breaches[0]?.say).toBe("The plan's cost is not what it says: rounds is 0 and not 7.");
  });
});
