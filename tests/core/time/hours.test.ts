import { describe, expect, it } from 'vitest';
import {
  addDays,
  clockOn,
  coverage,
  expandHours,
  minuteOf,
  occurrences,
  overlappingSpans,
  WEEKDAYS,
  type WeeklySpan,
} from '../../../core/time';

const nightly: WeeklySpan = { days: WEEKDAYS, from: '22:00', to: '06:00' };

function nightFrom(zone: string, date: string): number {
  const clock = clockOn(zone, `${date}T00:00`);
  const within = { start: minuteOf(clock, `${date}T12:00`), end: minuteOf(clock, `${addDays(date, 1)}T12:00`) };
  return coverage(occurrences(clock, within, [nightly]));
}

describe('a night shift from 22:00 to 06:00', () => {
  // Clock changes by the IANA time zone data; hours are end minus start in UTC.
  it.each([
    ['Europe/Berlin', '2026-03-28', 7],
    ['Europe/London', '2026-03-28', 7],
    ['Europe/Berlin', '2026-10-24', 9],
    ['Europe/Berlin', '2027-03-27', 7],
    ['Europe/Berlin', '2027-10-30', 9],
    ['America/New_York', '2026-03-07', 7],
    ['America/New_York', '2026-10-31', 9],
    ['America/Chicago', '2027-03-13', 7],
    ['Australia/Sydney', '2026-04-04', 9],
    ['Australia/Sydney', '2026-10-03', 7],
    ['Australia/Lord_Howe', '2026-04-04', 8.5],
    ['Australia/Lord_Howe', '2026-10-03', 7.5],
    ['Asia/Kolkata', '2026-03-28', 8],
    ['Asia/Kolkata', '2026-10-24', 8],
    ['Europe/Berlin', '2026-11-27', 8],
  ])('in %s from %s is %s hours long', (zone, date, hours) => {
    expect(nightFrom(zone, date)).toBe(hours * 60);
  });
});

const clock = clockOn('Europe/Berlin', '2026-11-30T00:00');
const week = { start: 0, end: 7 * 1440 };
const early: WeeklySpan = { days: ['mon', 'tue'], from: '06:00', to: '14:00' };

describe('hours expanded', () => {
  it('come on their weekdays only', () => {
    expect(expandHours(clock, week, [early])).toEqual([
      { start: 360, end: 840 },
      { start: 1440 + 360, end: 1440 + 840 },
    ]);
  });

  it('are cut to what is asked for, where occurrences are not', () => {
    const within = { start: 400, end: 500 };
    expect(expandHours(clock, within, [early])).toEqual([within]);
    expect(occurrences(clock, within, [early])).toEqual([{ start: 360, end: 840 }]);
  });

  it('include the night shift that began the evening before', () => {
    expect(expandHours(clock, { start: 0, end: 720 }, [nightly])).toEqual([{ start: 0, end: 360 }]);
  });

  it('join shifts that touch', () => {
    const late: WeeklySpan = { days: ['mon'], from: '14:00', to: '22:00' };
    expect(expandHours(clock, { start: 0, end: 1440 }, [early, late])).toEqual([{ start: 360, end: 1320 }]);
  });

  it('follow an exception instead of the week on its date', () => {
    const shorter = [{ date: '2026-11-30', hours: [{ from: '08:00', to: '10:00' }] }];
    expect(expandHours(clock, { start: 0, end: 1440 }, [early], shorter)).toEqual([{ start: 480, end: 600 }]);
    const closed = [{ date: '2026-11-30', hours: [] }];
    expect(expandHours(clock, { start: 0, end: 1440 }, [early], closed)).toEqual([]);
  });

  it('take an end equal to the start as a whole day', () => {
    expect(expandHours(clock, week, [{ days: ['mon'], from: '06:00', to: '06:00' }])).toEqual([
      { start: 360, end: 1440 + 360 },
    ]);
  });

  it('have nothing in an hour that the clocks skip', () => {
    const spring = clockOn('Europe/Berlin', '2026-03-29T00:00');
    const skipped: WeeklySpan = { days: ['sun'], from: '02:30', to: '03:00' };
    expect(occurrences(spring, { start: 0, end: 1380 }, [skipped])).toEqual([]);
  });
});

describe('weekly spans that overlap', () => {
  it('lets one begin the minute another ends', () => {
    expect(overlappingSpans([early, { days: ['mon'], from: '14:00', to: '22:00' }])).toBeNull();
  });

  it('finds a one-minute overlap', () => {
    expect(overlappingSpans([early, { days: ['mon'], from: '13:59', to: '22:00' }])).toEqual([0, 1]);
  });

  it('lets Monday begin the minute the night from Sunday ends', () => {
    const sunday: WeeklySpan = { days: ['sun'], from: '22:00', to: '06:00' };
    expect(overlappingSpans([sunday, early])).toBeNull();
  });

  it('finds a one-minute overlap of the night from Sunday with Monday', () => {
    const sunday: WeeklySpan = { days: ['sun'], from: '22:00', to: '06:01' };
    expect(overlappingSpans([early, sunday])?.toSorted()).toEqual([0, 1]);
  });

  it('lets the same hours stand on different days', () => {
    expect(overlappingSpans([early, { ...early, days: ['wed'] }])).toBeNull();
  });
});
