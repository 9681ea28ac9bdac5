import { describe, expect, it } from 'vitest';
import {
  addDays,
  clockOn,
  instantOf,
  isLocalTime,
  isZone,
  localAt,
  localTime,
  minuteOf,
  weekdayOf,
} from '../../../core/time';

const iso = (ms: number): string => new Date(ms).toISOString().replace('.000', '');

describe('wall time and instants', () => {
  // RFC 5545 section 3.3.5 gives both as examples for America/New_York.
  it('reads a time that comes twice as its first coming', () => {
    expect(iso(instantOf('America/New_York', '2007-11-04T01:30'))).toBe('2007-11-04T05:30:00Z');
  });

  it('reads a time that never comes with the offset before the gap', () => {
    expect(iso(instantOf('America/New_York', '2007-03-11T02:30'))).toBe('2007-03-11T07:30:00Z');
  });

  it('shows the skipped time as the wall time an hour later', () => {
    const zone = 'America/New_York';
    expect(localTime(zone, instantOf(zone, '2007-03-11T02:30'))).toBe('2007-03-11T03:30');
  });

  it.each(['Europe/Berlin', 'America/New_York', 'Australia/Lord_Howe', 'Asia/Kolkata', 'UTC'])(
    'gives back every other wall time of a year in %s',
    (zone) => {
      const skipped: string[] = [];
      for (let day = 0; day < 365; day++) {
        const local = `${addDays('2026-01-01', day)}T02:15`;
        if (localTime(zone, instantOf(zone, local)) !== local) skipped.push(local);
      }
      // Only the hour that the clocks skip, once a year where it lies over 02:15.
      const expected: Record<string, string[]> = {
        'Europe/Berlin': ['2026-03-29T02:15'],
        'America/New_York': ['2026-03-08T02:15'],
        'Australia/Lord_Howe': ['2026-10-04T02:15'],
      };
      expect(skipped).toEqual(expected[zone] ?? []);
    },
  );

  it('counts minutes from local midnight, negative before it', () => {
    const clock = clockOn('Europe/Berlin', '2026-11-27T16:00');
    expect(minuteOf(clock, '2026-11-27T00:00')).toBe(0);
    expect(minuteOf(clock, '2026-11-27T16:00')).toBe(960);
    expect(minuteOf(clock, '2026-11-26T23:00')).toBe(-60);
    expect(localAt(clock, 1440 + 95)).toBe('2026-11-28T01:35');
  });

  it('gives the day of the autumn change 25 hours and of the spring change 23', () => {
    expect(minuteOf(clockOn('Europe/Berlin', '2026-10-25T00:00'), '2026-10-26T00:00')).toBe(25 * 60);
    expect(minuteOf(clockOn('Europe/Berlin', '2026-03-29T00:00'), '2026-03-30T00:00')).toBe(23 * 60);
  });

  it('takes 24:00 as the midnight that ends the day', () => {
    expect(instantOf('Europe/Berlin', '2026-11-27T24:00')).toBe(instantOf('Europe/Berlin', '2026-11-28T00:00'));
  });
});

describe('what counts as a local time', () => {
  it.each(['2026-11-27T16:00', '2028-02-29T00:00', '2026-12-31T24:00'])('takes %s', (text) => {
    expect(isLocalTime(text)).toBe(true);
  });

  it.each([
    '2026-02-29T06:00',
    '2026-13-01T06:00',
    '2026-11-27T24:01',
    '2026-11-27T12:60',
    '2026-11-27',
    '2026-11-27 16:00',
    '0026-11-27T16:00',
    '',
  ])('refuses "%s"', (text) => {
    expect(isLocalTime(text)).toBe(false);
  });

  it('throws on text that is no local time', () => {
    expect(() => instantOf('Europe/Berlin', 'tomorrow')).toThrow(/2026-11-27T16:00/);
  });

  it('knows zones by their name only', () => {
    expect(isZone('Europe/Berlin')).toBe(true);
    expect(isZone('Europe/Atlantis')).toBe(false);
    expect(isZone('')).toBe(false);
  });
});

describe('dates', () => {
  it('moves by calendar days across months and clock changes', () => {
    expect(addDays('2026-10-24', 2)).toBe('2026-10-26');
    expect(addDays('2026-03-01', -1)).toBe('2026-02-28');
  });

  it('knows the weekday', () => {
    // 27 November 2026 is a Friday in any calendar.
    expect(weekdayOf('2026-11-27')).toBe('fri');
    expect(weekdayOf('2026-11-29')).toBe('sun');
    expect(weekdayOf('2026-11-30')).toBe('mon');
  });
});
