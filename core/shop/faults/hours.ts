import { overlappingSpans, type WeeklySpan } from '../../time';
import type { Fault } from '../fault';
import type { Path } from '../place';
import { daily, type Frame, fault } from './frame';
import { repeated } from './names';

/** Hours, breaks, shifts and closures that contradict themselves. */
export function hourFaults(frame: Frame): Fault[] {
  return [...peopleHours(frame), ...machineHours(frame), ...shiftHours(frame)];
}

function spanText(span: WeeklySpan, withDays: boolean): string {
  const times = `${span.from} to ${span.to}`;
  return withDays ? `${times} (${span.days.join(' ')})` : times;
}

/** At most one fault a list: mending the first overlap often mends the others. */
function overlap(frame: Frame, code: string, spans: readonly WeeklySpan[], at: Path, withDays = true): Fault[] {
  const pair = overlappingSpans(spans);
  if (pair === null) return [];
  const [first, second] = [Math.min(...pair), Math.max(...pair)];
  const [a, b] = [spans[first], spans[second]];
  if (a === undefined || b === undefined) return [];
  const say =
    first === second
      ? `${spanText(a, withDays)} overlaps itself; name each day once.`
      : `${spanText(b, withDays)} overlaps ${spanText(a, withDays)}; let one begin when the other ends, or remove one.`;
  return [fault(frame, 'error', code, [...at, second], say)];
}

function peopleHours(frame: Frame): Fault[] {
  return frame.shop.people.flatMap((person, p) => {
    const at = ['people', p] as const;
    const dates = person.exceptions.map((exception) => exception.date);
    return [
      ...overlap(frame, 'hours-overlap', person.hours, [...at, 'hours']),
      ...overlap(frame, 'breaks-overlap', person.breaks.map(daily), [...at, 'breaks'], false),
      ...person.exceptions.flatMap((exception, e) => {
        // One day alone: the weekday only gives the spans a place in the week.
        const spans = exception.hours.map((hours) => ({ ...hours, days: ['mon'] as const }));
        return overlap(frame, 'hours-overlap', spans, [...at, 'exceptions', e, 'hours'], false);
      }),
      ...repeated(dates).map((e) => {
        const say = 'this date has two exceptions; put all its hours into one.';
        return fault(frame, 'error', 'duplicate-date', [...at, 'exceptions', e], say);
      }),
    ];
  });
}

function machineHours(frame: Frame): Fault[] {
  return frame.shop.machines.flatMap((machine, m) => {
    const at = ['machines', m] as const;
    return [
      ...overlap(frame, 'hours-overlap', machine.hours, [...at, 'hours']),
      ...machine.closures.flatMap((closure, c) =>
        closure.from < closure.to
          ? []
          : [
              fault(
                frame,
                'error',
                'closure-backwards',
                [...at, 'closures', c],
                `it ends (${closure.to}) before it begins (${closure.from}); correct one of the two.`,
              ),
            ],
      ),
    ];
  });
}

function shiftHours(frame: Frame): Fault[] {
  const { shifts } = frame.shop;
  const doubled = shifts.flatMap((shift, s) => overlap(frame, 'hours-overlap', [shift], ['shifts', s, 'days']));
  if (doubled.length > 0) return doubled.map((f) => ({ ...f, at: f.at.slice(0, 2) }));
  const pair = overlappingSpans(shifts);
  if (pair === null) return [];
  const [first, second] = [Math.min(...pair), Math.max(...pair)];
  const [a, b] = [shifts[first], shifts[second]];
  if (a === undefined || b === undefined) return [];
  const sameName = a.id === b.id;
  const say = `${spanText(b, true)} overlaps shift ${a.id}, ${spanText(a, true)}${
    sameName ? '' : ', and the shift table counts that time twice'
  }; let one begin when the other ends.`;
  return [fault(frame, sameName ? 'error' : 'warning', 'shifts-overlap', ['shifts', second], say)];
}
