import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { eachWithin, firstAbove, trackOf } from '../../../renderer/timeline/track';

const interval = fc.record({ start: fc.integer({ min: 0, max: 500 }), length: fc.integer({ min: 1, max: 120 }) });

describe('things in order of time', () => {
  it('finds exactly what overlaps a span, in order, however they overlap each other', () => {
    fc.assert(
      fc.property(fc.array(interval, { maxLength: 40 }), interval, (given, { start, length }) => {
        const things = given.map((one, i) => ({ i, start: one.start, end: one.start + one.length }));
        const span = { start, end: start + length };
        const found: number[] = [];
        eachWithin(trackOf(things), span, ({ i }) => found.push(i));
        const expected = things.filter((one) => one.end > span.start && one.start < span.end);
        expect(found).toEqual(expected.sort((a, b) => a.start - b.start).map(({ i }) => i));
      }),
    );
  });

  it('finds a long one that began far before the span', () => {
    const track = trackOf([
      { start: 0, end: 1000 },
      ...Array.from({ length: 50 }, (_, i) => ({ start: i, end: i + 1 })),
    ]);
    const found: number[] = [];
    eachWithin(track, { start: 900, end: 901 }, ({ end }) => found.push(end));
    expect(found).toEqual([1000]);
  });

  it('finds the first value above a limit, or the end', () => {
    expect([-1, 2, 3, 5, 9].map((limit) => firstAbove([2, 3, 3, 5], limit))).toEqual([0, 1, 3, 4, 4]);
  });
});
