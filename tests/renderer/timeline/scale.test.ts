import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitTo, panBy, reveal, spanOf, toMinute, toPx, zoomAt } from '../../../renderer/timeline/scale';

const limits = { start: -120, end: 20_160 };
const scale = fitTo({ start: 780, end: 1890 }, 1000);

describe('the scale of the timeline', () => {
  it('finds the minute it put on a pixel', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 20_000 }), fc.integer({ min: 15, max: 20_000 }), (minute, length) => {
        const any = fitTo({ start: 500, end: 500 + length }, 873);
        expect(toMinute(any, toPx(any, minute))).toBeCloseTo(minute, 6);
      }),
    );
  });

  it('shows exactly the time it was fitted to', () => {
    expect(spanOf(scale)).toEqual({ start: 780, end: 1890 });
  });

  it('keeps the minute under the pointer while zooming', () => {
    const under = toMinute(scale, 300);
    expect(toMinute(zoomAt(scale, 300, 2.5, limits), 300)).toBeCloseTo(under, 9);
  });

  it('shows no less than ten minutes and no more than the limits', () => {
    const near = spanOf(zoomAt(scale, 500, 1e9, limits));
    const far = spanOf(zoomAt(scale, 500, 1e-9, limits));
    expect(near.end - near.start).toBeCloseTo(10, 9);
    expect(far.start).toBeCloseTo(limits.start, 6);
    expect(far.end).toBeCloseTo(limits.end, 6);
  });

  it('does not pan beyond the limits', () => {
    expect(spanOf(panBy(scale, -1e6, limits)).start).toBe(limits.start);
    expect(spanOf(panBy(scale, 1e6, limits)).end).toBeCloseTo(limits.end, 6);
  });

  it('stays where it is when what is to be shown is on screen', () => {
    expect(reveal(scale, { start: 900, end: 1000 }, limits)).toBe(scale);
  });

  it('stays where it is when enough of a long run is on screen to know it', () => {
    expect(reveal(scale, { start: 1500, end: 4000 }, limits)).toBe(scale);
  });

  it('shows a run longer than the screen from its start', () => {
    expect(toPx(reveal(scale, { start: 3000, end: 9000 }, limits), 3000)).toBeCloseTo(48, 6);
  });

  it('moves no further than it must to show a run that is off screen', () => {
    const later = reveal(scale, { start: 1900, end: 2000 }, limits);
    expect(toPx(later, 2000)).toBeCloseTo(952, 6);
    const earlier = reveal(scale, { start: 600, end: 700 }, limits);
    expect(toPx(earlier, 600)).toBeCloseTo(48, 6);
  });
});
