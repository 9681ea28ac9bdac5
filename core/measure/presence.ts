import type { Machine, Person, Plan, Shop } from '../shop';
import {
  expandHours,
  type Interval,
  intersect,
  minuteOf,
  type Stretch,
  stretchesOf,
  subtract,
  tonightOf,
  WEEKDAYS,
} from '../time';

/** Enough of the time before the origin to know how long the stretch is in which the plan's moment lies. */
const LOOK_BACK = 1440;

/** When one person is in the shop from the day before the plan's origin to its horizon, sorted. */
export interface Presence {
  readonly person: Person;
  /** Breaks included. */
  readonly present: readonly Interval[];
  readonly breaks: readonly Interval[];
  /** Present and in no break. */
  readonly able: readonly Interval[];
}

/** From the plan's moment to its horizon. */
export function windowOf(plan: Plan): Interval {
  return { start: plan.now, end: plan.horizon };
}

function lookOut(plan: Plan): Interval {
  return { start: -LOOK_BACK, end: plan.horizon };
}

/** Everybody's presence, in the shop's order. */
export function presencesOf(shop: Shop, plan: Plan): Presence[] {
  const within = lookOut(plan);
  return shop.people.map((person) => {
    const present = expandHours(plan.clock, within, person.hours, person.exceptions);
    const daily = person.breaks.map((span) => ({ ...span, days: WEEKDAYS }));
    const breaks = intersect(expandHours(plan.clock, within, daily), present);
    return { person, present, breaks, able: subtract(present, breaks) };
  });
}

/** When the machine may run inside the plan's window: in its hours, outside its closures; never if it is out of use. */
export function openTimes(machine: Machine, plan: Plan): Interval[] {
  if (!machine.inUse) return [];
  const within = windowOf(plan);
  const hours = machine.hours.length === 0 ? [within] : expandHours(plan.clock, within, machine.hours);
  const closed = machine.closures.map((c) => ({
    start: minuteOf(plan.clock, c.from),
    end: minuteOf(plan.clock, c.to),
  }));
  return subtract(hours, closed);
}

/** The same time as attended and unattended stretches, and tonight among them. */
export function nightsOf(
  presences: readonly Presence[],
  plan: Plan,
): { stretches: Stretch[]; tonight: Stretch | null } {
  const stretches = stretchesOf(
    presences.flatMap((p) => p.present),
    lookOut(plan),
  );
  return { stretches, tonight: tonightOf(stretches, plan.now) };
}
