import type { Shop } from '../shop';
import { addDays, clockOn, localAt, minuteOf, stretchesOf, tonightOf } from '../time';
import { peopleOf, presenceOf } from './people';
import { machinesOf } from './plant';
import type { Problem } from './problem';
import { runsFor } from './runs';

/**
 * The problem of planning `shop` as of `at` (local time in its zone). The shop must have no fault of level error; its
 * `planFrom` is not consulted.
 */
export function problemOf(shop: Shop, at: string): Problem {
  const clock = clockOn(shop.zone, at);
  const now = minuteOf(clock, at);
  const horizon = minuteOf(clock, `${addDays(localAt(clock, 0).slice(0, 10), shop.horizonDays)}T00:00`);
  const within = { start: now, end: horizon };

  const machines = machinesOf(shop, clock, within);
  const people = peopleOf(shop, clock, within);
  const runs = runsFor(shop, clock, now);
  // A night that has begun already is as long as it was when it began, so its beginning is looked for a day back.
  const stretches = stretchesOf(presenceOf(shop, clock, { start: -1440, end: horizon }), {
    start: -1440,
    end: horizon,
  });
  const ahead = stretches.filter((s) => s.end > now).map((s) => ({ ...s, start: Math.max(s.start, now) }));
  return {
    shop,
    clock,
    now,
    horizon,
    ...runs,
    ...machines,
    ...people,
    palletCount: shop.pallets.length,
    palletIds: shop.pallets.map((p) => p.id),
    palletReach: Int32Array.from(shop.pallets, (p) => p.machines.length || shop.machines.length),
    jobCount: shop.jobs.length,
    due: Int32Array.from(shop.jobs, (j) => minuteOf(clock, j.due)),
    jobWeight: Float64Array.from(shop.jobs, (j) => j.weight),
    tonight: tonightOf(stretches, now),
    attended: ahead.filter((s) => s.attended),
    unattended: ahead.filter((s) => !s.attended),
  };
}
