import { type Attended, intervalAt, type PlanReading, type Presence, personName, touching, visitsIn } from '../measure';
import { type Interval, lengthText, type Minute, subtract } from '../time';
import { atText, listText } from './words';
import { machineName } from './work';

/** Whose hands are free when. */
export interface Hands {
  /**
   * When somebody with the skill, standing in no attendance and allowing for the walks to and from `spot`, has
   * `minutes` in a row inside `within` or beyond its end. Not sorted.
   */
  free(spot: string, skill: string, minutes: number, within: Interval): Interval[];
  /** What keeps everybody with the skill from an attendance of `minutes` when `within` begins, as a clause. */
  keptBy(skill: string, minutes: number, within: Interval): string;
}

/** More people than this are counted instead of named. */
const MOST_NAMED = 3;

interface Hand {
  readonly presence: Presence;
  readonly visits: readonly { readonly attended: Attended; readonly machine: string; readonly spot: string }[];
}

/** Reads everybody's hands out of the plan. */
export function handsOf(reading: PlanReading): Hands {
  const { shop, plan, walks } = reading;
  const hands = new Map(
    reading.presences.map((presence) => [presence.person.id, { presence, visits: [] as Hand['visits'][number][] }]),
  );
  for (const { attended, machine } of visitsIn(reading)) {
    const spot = walks.spotOf(machine, attended.role);
    hands.get(attended.person)?.visits.push({ attended, machine: machine.id, spot });
  }
  for (const hand of hands.values()) hand.visits.sort((a, b) => a.attended.start - b.attended.start);
  const freeAt = new Map<string, Interval[][]>();

  function skilled(skill: string): Hand[] {
    return [...hands.values()].filter(({ presence }) => skill === '' || presence.person.skills.includes(skill));
  }

  function windowsAt(spot: string, skill: string): Interval[][] {
    const key = JSON.stringify([spot, skill]);
    const known = freeAt.get(key);
    if (known !== undefined) return known;
    const windows = skilled(skill).map(({ presence, visits }) => {
      const kept = visits.map((visit) => {
        const walk = walks.between(visit.spot, spot);
        return { start: visit.attended.start - walk, end: visit.attended.end + walk };
      });
      return subtract(presence.able, kept);
    });
    freeAt.set(key, windows);
    return windows;
  }

  function stateOf({ presence, visits }: Hand, minutes: number, minute: Minute): State {
    const visit = visits.find(({ attended }) => attended.start <= minute && minute < attended.end);
    if (visit !== undefined) {
      return { free: false, does: `is at ${machineName(shop, visit.machine)} until`, until: visit.attended.end };
    }
    const pause = intervalAt(presence.breaks, minute);
    if (pause !== null) return { free: false, does: 'has a break until', until: pause.end };
    const able = intervalAt(presence.able, minute);
    if (able !== null) {
      const next = visits.find(({ attended }) => attended.start > minute)?.attended.start ?? able.end;
      return { free: true, does: `has less than ${lengthText(minutes)} before`, until: Math.min(next, able.end) };
    }
    const comes = presence.present.find((i) => i.start > minute)?.start ?? null;
    return { free: false, does: comes === null ? 'is not here' : 'is not here before', until: comes };
  }

  return {
    free(spot, skill, minutes, within) {
      return windowsAt(spot, skill).flatMap((windows) =>
        touching(windows, within).flatMap((window) => {
          const start = Math.max(window.start, within.start);
          return window.end - start >= minutes ? [{ start, end: Math.min(window.end, within.end) }] : [];
        }),
      );
    },
    keptBy(skill, minutes, within) {
      const able = skilled(skill);
      if (able.length === 0) return `nobody has the skill ${skill}`;
      const here = able.filter(({ presence }) => intervalAt(presence.present, within.start) !== null);
      if (here.length === 0 && able.length > MOST_NAMED) return 'nobody who can is here';
      if (here.length > MOST_NAMED) return `all ${here.length} who are here and can are busy`;
      const text = (minute: Minute) => atText(plan.clock, minute, within.start);
      const states = (here.length > 0 ? here : able).map((hand) => ({
        name: personName(shop, hand.presence.person.id),
        ...stateOf(hand, minutes, within.start),
      }));
      const [only] = states;
      if (states.length === 1 && only!.until !== null && only!.until < within.end) {
        const rest = `has no ${lengthText(minutes)} in a row before ${text(within.end)}`;
        return only!.free ? `${only!.name} ${rest}` : `${only!.name} ${only!.does} ${text(only!.until)} and ${rest}`;
      }
      return listText(
        states.map(({ name, does, until }) => `${name} ${does}${until === null ? '' : ` ${text(until)}`}`),
      );
    },
  };
}

interface State {
  /** In the shop with nothing to do, if not for long. */
  readonly free: boolean;
  readonly does: string;
  /** Null: not known. */
  readonly until: Minute | null;
}
