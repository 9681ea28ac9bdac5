import { describe, expect, it } from 'vitest';
import { distance, growthExponent, mean, secondsToWithin } from './statistics';

// Of our own making, worked by hand.
describe('the figures of a benchmark', () => {
  it('say how far above in percent, of a gain too', () => {
    expect(distance(102, 100)).toBe(2);
    expect(distance(100, 100)).toBe(0);
    expect(distance(-90, -100)).toBe(10);
  });

  it('say nothing of a distance from zero or a mean of nothing', () => {
    expect(distance(5, 0)).toBeNull();
    expect(mean([])).toBeNull();
  });

  it('find the power by which time grows', () => {
    const squares = [10, 20, 50].map((x) => ({ x, y: 3 * x * x }));
    expect(growthExponent(squares)).toBeCloseTo(2, 9);
    expect(growthExponent([4, 9].map((x) => ({ x, y: 7 })))).toBeCloseTo(0, 9);
  });

  it('find no power in one size, however often it was measured', () => {
    expect(growthExponent([{ x: 10, y: 2 }])).toBeNull();
    expect(growthExponent([1, 2].map((y) => ({ x: 10, y })))).toBeNull();
  });

  it('count the seconds until a cost is within a share of the last one', () => {
    const moments = [
      { seconds: 0.1, total: 120 },
      { seconds: 0.4, total: 101 },
      { seconds: 2, total: 100 },
    ];
    expect(secondsToWithin(moments, 0.01)).toBe(0.4);
    expect(secondsToWithin(moments, 0)).toBe(2);
    expect(secondsToWithin([], 0.01)).toBeNull();
  });

  it('count gains, which are costs below zero, alike', () => {
    const gains = [
      { seconds: 0.1, total: -80 },
      { seconds: 0.5, total: -99.5 },
      { seconds: 3, total: -100 },
    ];
    expect(secondsToWithin(gains, 0.01)).toBe(0.5);
  });
});
