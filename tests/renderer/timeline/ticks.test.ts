import { describe, expect, it } from 'vitest';
import { clockOn } from '../../../core/time';
import { dayTicks, HOUR_STEPS, hourTicks, stepFor } from '../../../renderer/timeline/ticks';

/** Clock changes of 2026: IANA time zone data; Berlin 29 March and 25 October, Lord Howe 5 April (half an hour). */
const wholeDay = (zone: string, date: string, hours: number) => ({
  clock: clockOn(zone, `${date}T00:00`),
  span: { start: 0, end: hours * 60 },
});

const labels = (zone: string, date: string, hours: number, step: number): string[] => {
  const { clock, span } = wholeDay(zone, date, hours);
  return hourTicks(clock, span, step).map((tick) => tick.label);
};

describe('ticks of the time axis', () => {
  it('stand at every hour of an ordinary day', () => {
    const hours = labels('Europe/Berlin', '2026-11-25', 24, 60);
    expect(hours).toHaveLength(24);
    expect(hours.slice(0, 3)).toEqual(['00:00', '01:00', '02:00']);
  });

  it('leave out the hour that never comes in spring', () => {
    const hours = labels('Europe/Berlin', '2026-03-29', 23, 60);
    expect(hours).toHaveLength(23);
    expect(hours.slice(0, 4)).toEqual(['00:00', '01:00', '03:00', '04:00']);
  });

  it('write the doubled hour twice in autumn', () => {
    const hours = labels('Europe/Berlin', '2026-10-25', 25, 60);
    expect(hours).toHaveLength(25);
    expect(hours.slice(1, 5)).toEqual(['01:00', '02:00', '02:00', '03:00']);
  });

  it('stay on the wall clock after a change: 06:00 is 06:00, whatever has passed', () => {
    const { clock, span } = wholeDay('Europe/Berlin', '2026-10-25', 25);
    expect(hourTicks(clock, span, 360)).toEqual([
      { minute: 0, label: '00:00' },
      { minute: 420, label: '06:00' },
      { minute: 780, label: '12:00' },
      { minute: 1140, label: '18:00' },
    ]);
  });

  it('follow a zone whose clocks change by half an hour', () => {
    const { clock, span } = wholeDay('Australia/Lord_Howe', '2026-04-05', 24.5);
    expect(hourTicks(clock, span, 30).filter((tick) => tick.label === '01:30')).toHaveLength(2);
  });

  it('name days of 23 and 25 hours', () => {
    const spring = wholeDay('Europe/Berlin', '2026-03-29', 23);
    const autumn = wholeDay('Europe/Berlin', '2026-10-25', 25);
    expect(dayTicks(spring.clock, spring.span)).toEqual([{ minute: 0, end: 1380, label: 'Sun 29 Mar, 23 h long' }]);
    expect(dayTicks(autumn.clock, autumn.span)[0]?.label).toBe('Sun 25 Oct, 25 h long');
  });

  it('begin days before the left edge, so that a day in the middle of the screen has a name', () => {
    const { clock } = wholeDay('Europe/Berlin', '2026-11-25', 24);
    expect(dayTicks(clock, { start: 600.5, end: 700 }).map((day) => day.minute)).toEqual([0]);
  });

  it('take the finest step that leaves room for the labels', () => {
    expect(stepFor(1, 58)).toBe(60);
    expect(stepFor(12, 58)).toBe(5);
    expect(stepFor(0.001, 58)).toBe(1440);
    expect(HOUR_STEPS.every((step) => 1440 % step === 0)).toBe(true);
  });
});
