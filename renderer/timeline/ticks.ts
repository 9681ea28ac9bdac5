import { addDays, type Clock, dayText, type Interval, localAt, type Minute, minuteOf } from '../../core/time';

interface Tick {
  readonly minute: Minute;
  readonly label: string;
}

interface DayTick extends Tick {
  /** The next local midnight: 23, 24 or 25 hours on. */
  readonly end: Minute;
}

/** Steps of wall-clock minutes that read well; each divides a day. */
export const HOUR_STEPS = [5, 10, 15, 30, 60, 120, 180, 240, 360, 720, 1440] as const;

/** The finest step whose labels keep `apartCss` pixels between them. */
export function stepFor(cssPerMin: number, apartCss: number): number {
  return HOUR_STEPS.find((step) => step * cssPerMin >= apartCss) ?? 1440;
}

/** Local midnights that begin a day touching `span`; a day of unusual length says so. */
export function dayTicks(clock: Clock, span: Interval): DayTick[] {
  const ticks: DayTick[] = [];
  let date = localAt(clock, Math.floor(span.start)).slice(0, 10);
  for (;;) {
    const minute = minuteOf(clock, `${date}T00:00`);
    if (minute >= span.end) return ticks;
    const next = addDays(date, 1);
    const end = minuteOf(clock, `${next}T00:00`);
    const hours = (end - minute) / 60;
    const unusual = hours === 24 ? '' : `, ${hours} h long`;
    ticks.push({ minute, end, label: dayText(clock, minute) + unusual });
    date = next;
  }
}

/**
 * Times of day at every `step` wall-clock minutes inside `span`, with the clock's own labels. In a night in which the
 * clocks go forward the missing hour has no tick; when they go back the doubled hour has its ticks twice.
 */
export function hourTicks(clock: Clock, span: Interval, step: number): Tick[] {
  return dayTicks(clock, span)
    .flatMap((day) => ticksOfDay(clock, day, step))
    .filter((tick) => tick.minute >= span.start && tick.minute < span.end);
}

function ticksOfDay(clock: Clock, day: DayTick, step: number): Tick[] {
  const date = localAt(clock, day.minute).slice(0, 10);
  const minutes: Minute[] = [];
  for (let wall = 0; wall < 1440; wall += step) {
    const time = `${date}T${String(Math.floor(wall / 60)).padStart(2, '0')}:${String(wall % 60).padStart(2, '0')}`;
    const minute = minuteOf(clock, time);
    if (localAt(clock, minute) === time) minutes.push(minute);
  }
  const withRepeats = minutes.flatMap((minute, i) => [
    minute,
    ...repeated(clock, minute, minutes[i + 1] ?? day.end, step),
  ]);
  return withRepeats.map((minute) => ({ minute, label: localAt(clock, minute).slice(11) }));
}

/** Ticks of the second coming of a doubled hour: they lie where two ticks are further apart than their step. */
function repeated(clock: Clock, before: Minute, after: Minute, step: number): Minute[] {
  const found: Minute[] = [];
  for (let minute = after - step; minute > before; minute -= step) {
    const time = localAt(clock, minute).slice(11);
    if ((Number(time.slice(0, 2)) * 60 + Number(time.slice(3))) % step === 0) found.unshift(minute);
  }
  return found;
}
