import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { clip, firstFit, firstIn, fullTimes, intervalAt, minutesIn } from '../../../core/measure';
import { intersect, union } from '../../../core/time';

const intervals = fc
  .array(fc.tuple(fc.integer({ min: 0, max: 60 }), fc.integer({ min: 0, max: 12 })), { maxLength: 12 })
  .map((pairs) => pairs.map(([start, length]) => ({ start, end: start + length })));

describe('full times', () => {
  it('count one that begins the minute another ends as following it', () => {
    const places = [
      { start: 0, end: 10 },
      { start: 10, end: 20 },
    ];
    expect(fullTimes(places, 2)).toEqual([]);
    expect(fullTimes(places, 1)).toEqual([{ start: 0, end: 20 }]);
  });

  it('hold exactly the minutes in which so many are under way', () => {
    fc.assert(
      fc.property(intervals, fc.integer({ min: 1, max: 4 }), (held, limit) => {
        const full = fullTimes(held, limit);
        for (let minute = 0; minute < 80; minute++) {
          const count = held.filter((i) => i.start <= minute && minute < i.end).length;
          expect(intervalAt(full, minute) !== null).toBe(count >= limit);
        }
      }),
      { seed: 11, numRuns: 200 },
    );
  });
});

describe('clipping', () => {
  it('gives what the intersection gives', () => {
    fc.assert(
      fc.property(
        intervals,
        fc.integer({ min: 0, max: 60 }),
        fc.integer({ min: 1, max: 20 }),
        (some, start, length) => {
          const within = { start, end: start + length };
          const sorted = union(some);
          expect(clip(sorted, within)).toEqual(intersect(sorted, [within]));
          const minutes = intersect(sorted, [within]).reduce((sum, i) => sum + i.end - i.start, 0);
          expect(minutesIn(sorted, within)).toBe(minutes);
        },
      ),
      { seed: 12, numRuns: 300 },
    );
  });
});

describe('looking ahead', () => {
  const windows = [
    { start: 10, end: 20 },
    { start: 30, end: 50 },
  ];

  it('finds the first minute inside', () => {
    expect([0, 15, 20, 50].map((m) => firstIn(windows, m))).toEqual([10, 15, 30, Number.POSITIVE_INFINITY]);
  });

  it('finds the first window with room to its last minute', () => {
    expect(firstFit(windows, 12, 8)).toBe(12);
    expect(firstFit(windows, 12, 9)).toBe(30);
    expect(firstFit(windows, 12, 21)).toBe(Number.POSITIVE_INFINITY);
  });
});
