import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { coverage, type Interval, intersect, stretchesOf, subtract, tonightOf, union } from '../../../core/time';

const span = (start: number, end: number): Interval => ({ start, end });

describe('sets of intervals', () => {
  it('join what touches and drop what is empty', () => {
    expect(union([span(10, 20), span(0, 10), span(30, 30), span(25, 28)])).toEqual([span(0, 20), span(25, 28)]);
  });

  it('cut holes out', () => {
    expect(subtract([span(0, 100)], [span(20, 30), span(90, 200)])).toEqual([span(0, 20), span(30, 90)]);
  });

  it('meet in nothing when one begins the minute the other ends, and in a minute when they overlap by one', () => {
    expect(intersect([span(0, 10)], [span(10, 20)])).toEqual([]);
    expect(intersect([span(0, 11)], [span(10, 20)])).toEqual([span(10, 11)]);
  });

  const spans = fc.array(
    fc.tuple(fc.integer({ min: 0, max: 60 }), fc.integer({ min: 0, max: 20 })).map(([s, l]) => span(s, s + l)),
    { maxLength: 8 },
  );
  const has = (set: readonly Interval[], minute: number): boolean =>
    set.some((i) => i.start <= minute && minute < i.end);

  it('agree, minute by minute, with what set algebra says', () => {
    fc.assert(
      fc.property(spans, spans, (a, b) => {
        for (let minute = 0; minute < 85; minute++) {
          expect(has(union([...a, ...b]), minute)).toBe(has(a, minute) || has(b, minute));
          expect(has(subtract(a, b), minute)).toBe(has(a, minute) && !has(b, minute));
          expect(has(intersect(a, b), minute)).toBe(has(a, minute) && has(b, minute));
        }
        expect(coverage(a)).toBe(Array.from({ length: 85 }, (_, m) => m).filter((m) => has(a, m)).length);
      }),
      { seed: 4, numRuns: 200 },
    );
  });
});

describe('attended and unattended stretches', () => {
  const day = span(0, 1440);

  it('cover the whole time and alternate', () => {
    const stretches = stretchesOf([span(360, 840), span(840, 1320)], day);
    expect(stretches).toEqual([
      { start: 0, end: 360, attended: false },
      { start: 360, end: 1320, attended: true },
      { start: 1320, end: 1440, attended: false },
    ]);
  });

  it('take a gap of two hours as a night and one a minute shorter not', () => {
    const gapOf = (minutes: number) => stretchesOf([span(0, 600), span(600 + minutes, 1440)], day);
    expect(tonightOf(gapOf(120), 0)).toEqual({ start: 600, end: 720, attended: false });
    expect(tonightOf(gapOf(119), 0)).toBeNull();
  });

  it('keep a night that is under way and pass one that is over', () => {
    const stretches = stretchesOf([span(360, 1080)], day);
    expect(tonightOf(stretches, 359)).toMatchObject({ start: 0 });
    expect(tonightOf(stretches, 360)).toMatchObject({ start: 1080 });
  });
});
