import { type Clock, localAt, type Minute, weekdayOf } from './clock';

const NAMES = { mon: 'Mon', tue: 'Tue', wed: 'Wed', thu: 'Thu', fri: 'Fri', sat: 'Sat', sun: 'Sun' } as const;
const MONTHS = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];

/** `22:05`. */
export function clockText(clock: Clock, minute: Minute): string {
  return localAt(clock, minute).slice(11);
}

/** `Wed 25 Nov`. */
export function dayText(clock: Clock, minute: Minute): string {
  const date = localAt(clock, minute).slice(0, 10);
  return `${NAMES[weekdayOf(date)]} ${Number(date.slice(8))} ${MONTHS[Number(date.slice(5, 7)) - 1]}`;
}

/** `Wed 22:05`, enough inside one week. */
export function momentText(clock: Clock, minute: Minute): string {
  return `${dayText(clock, minute).slice(0, 3)} ${clockText(clock, minute)}`;
}

/** Minutes as `45 min` or `1 h 05 min`; a length of time, for reading. */
export function lengthText(minutes: number): string {
  const whole = Math.round(Math.abs(minutes));
  const sign = minutes < 0 ? '-' : '';
  if (whole < 60) return `${sign}${whole} min`;
  const rest = whole % 60;
  return rest === 0
    ? `${sign}${whole / 60} h`
    : `${sign}${Math.floor(whole / 60)} h ${String(rest).padStart(2, '0')} min`;
}

/** Minutes as hours with one decimal and unit, `41.2 h`; for sums and comparisons. */
export function hoursText(minutes: number): string {
  return `${(minutes / 60).toFixed(1)} h`;
}
