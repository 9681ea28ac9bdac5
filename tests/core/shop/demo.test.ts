import { describe, expect, it } from 'vitest';
import { cutMinutes, demoShop, emptyShop, faultsOf, parseShop, runsOf } from '../../../core/shop';
import { clockOn, minuteOf, weekdayOf } from '../../../core/time';

// Any day, the last of a year, a leap day, and weeks in which the clocks change in Berlin.
const DAYS = ['2026-11-25', '2026-11-30', '2026-12-31', '2028-02-29', '2026-03-23', '2026-10-19', '2027-10-25'];

describe('the demo shop', () => {
  it.each(DAYS)('made on %s has nothing wrong with it', (today) => {
    const shop = demoShop(today);
    expect(faultsOf(shop, shop.planFrom ?? '')).toEqual([]);
    expect(parseShop(shop)).toEqual({ ok: true, value: shop });
  });

  it('begins on the first Monday on or after today, at 13:00', () => {
    expect(demoShop('2026-11-30').planFrom).toBe('2026-11-30T13:00');
    expect(demoShop('2026-12-01').planFrom).toBe('2026-12-07T13:00');
    for (const today of DAYS) expect(weekdayOf(demoShop(today).planFrom?.slice(0, 10) ?? '')).toBe('mon');
  });

  it('has two mills, a grinder, one that does both and a bench, two operators, twelve pallets and twenty jobs', () => {
    const shop = demoShop('2026-11-30');
    expect(shop.machines.map((m) => m.kind)).toEqual(['mill', 'mill', 'mill-grind', 'grind', 'bench']);
    expect([shop.people.length, shop.pallets.length, shop.jobs.length]).toEqual([2, 12, 20]);
    expect(new Set(shop.pallets.map((p) => p.fixture)).size).toBe(4);
  });

  it('calls for 80 to 120 runs that cut from 35 minutes to 6 hours', () => {
    const runs = runsOf(demoShop('2026-11-30'));
    expect(runs.length).toBeGreaterThanOrEqual(80);
    expect(runs.length).toBeLessThanOrEqual(120);
    const cuts = runs.flatMap((run) => run.operation.machines.map((m) => cutMinutes(run, m.cycle)));
    expect(Math.min(...cuts)).toBe(35);
    expect(Math.max(...cuts)).toBe(360);
  });

  it('says on its run sheets what to measure, each thing to do if a run stops, corrections before its week, spare blanks', () => {
    const shop = demoShop('2026-11-30');
    const operations = shop.jobs.flatMap((job) => job.route);
    expect(operations.filter((operation) => operation.measure !== '').length).toBeGreaterThan(9);
    expect(new Set(operations.map((operation) => operation.ifStops))).toEqual(new Set(['skip', 'leave', 'call']));
    const corrected = operations.flatMap(({ correction }) => (correction === null ? [] : [correction.at]));
    expect(corrected).toEqual(['2026-11-27', '2026-11-26']);
    expect(shop.jobs.reduce((sum, job) => sum + job.spareBlanks, 0)).toBe(8);
  });

  it('has an overdue job and one whose route alone reaches past its due time', () => {
    const shop = demoShop('2026-11-30');
    const clock = clockOn(shop.zone, shop.planFrom ?? '');
    const late = shop.jobs.filter((job) => {
      const shortest = job.route.reduce((sum, o) => sum + o.lag + Math.min(...o.machines.map((m) => m.cycle)), 0);
      return minuteOf(clock, shop.planFrom ?? '') + shortest > minuteOf(clock, job.due);
    });
    expect(late.map((job) => job.id)).toEqual(['J-115', 'J-116']);
  });
});

describe('an empty shop', () => {
  it('keeps the zone it is given', () => {
    expect(emptyShop('America/Chicago')).toMatchObject({ zone: 'America/Chicago', machines: [], jobs: [] });
  });
});
