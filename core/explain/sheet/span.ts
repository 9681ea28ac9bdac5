import type { PlanView, SheetTime } from '../../contract';
import { type Clock, clockText, dayText, type Interval, type Minute, minuteOf } from '../../time';

/** Minutes covered where somebody is always there, so that there is no night to end with. */
const WITHOUT_NIGHT = 1440;

/** What a sheet is about: from the plan's release, if it was released later than it begins, to the end of the night. */
export interface SheetSpan extends Interval {
  readonly clock: Clock;
  /** When the last person leaves, or null if somebody is always there. */
  readonly alone: Interval | null;
}

export function spanOf({ plan, report, released }: Pick<PlanView, 'plan' | 'report' | 'released'>): SheetSpan {
  const { clock, now, horizon } = plan;
  const { tonight } = report;
  const end = tonight?.end ?? Math.min(horizon, now + WITHOUT_NIGHT);
  const release = released === null ? now : minuteOf(clock, released.at);
  // A plan made ahead is released before it begins, and one released again later is still the same night's.
  const start = release > now && release < end ? release : now;
  return { clock, start, end, alone: tonight };
}

/** A time as the sheet shows it: with its day where that is not the day on which the sheet begins. */
export function timeOn({ clock, start }: SheetSpan, minute: Minute): SheetTime {
  const day = dayText(clock, minute);
  return { day: day === dayText(clock, start) ? null : day.slice(0, 3), time: clockText(clock, minute) };
}

/** `13:20`, `Tue 06:00`. */
export function timeText(time: SheetTime): string {
  return time.day === null ? time.time : `${time.day} ${time.time}`;
}

export function meets(a: Interval, b: Interval): boolean {
  return a.start < b.end && a.end > b.start;
}
