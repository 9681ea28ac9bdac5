import type { Shop } from '../shop';
import { type Clock, expandHours, type Interval, subtract, WEEKDAYS } from '../time';
import { flatIntervals } from './rows';

/** People with the time in which they may attend, and which of it is extra. */
export function peopleOf(shop: Shop, clock: Clock, within: Interval) {
  const hours = shop.people.map((p) => expandHours(clock, within, p.hours, p.exceptions));
  const breaks = shop.people.map((p) =>
    expandHours(
      clock,
      within,
      p.breaks.map((b) => ({ ...b, days: WEEKDAYS })),
    ),
  );
  const extra = shop.people.map((p) =>
    expandHours(
      clock,
      within,
      p.hours.filter((h) => h.extra),
      // A date with its own hours has no weekly extra ones.
      p.exceptions.map((e) => ({ date: e.date, hours: [] })),
    ),
  );
  return {
    personCount: shop.people.length,
    personIds: shop.people.map((p) => p.id),
    free: flatIntervals(hours.map((h, i) => subtract(h, breaks[i]!))),
    extra: flatIntervals(extra),
  };
}

/** When anybody is in the shop, breaks included. */
export function presenceOf(shop: Shop, clock: Clock, within: Interval): Interval[] {
  return shop.people.flatMap((p) => expandHours(clock, within, p.hours, p.exceptions));
}
