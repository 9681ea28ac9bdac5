import { describe, expect, it } from 'vitest';
import { framesOf, middle, shareOf } from './figures';

describe('figures of a screen', () => {
  it('take the middle of several, whatever their order', () => {
    expect(middle([900, 100, 300])).toBe(300);
    expect(middle([4, 1, 3, 2])).toBe(2);
    expect(() => middle([])).toThrow(/nothing/);
  });

  it('take what 95 of 100 do not exceed by nearest rank', () => {
    const hundred = Array.from({ length: 100 }, (_, at) => at + 1);
    expect(shareOf(hundred, 0.95)).toBe(95);
    expect(shareOf([7], 0.95)).toBe(7);
  });

  it('count frames that came late and those that stalled', () => {
    expect(framesOf([0, 16, 32, 65, 165])).toEqual({
      count: 4,
      middle: 16,
      most: 100,
      late: 2,
      stalled: 1,
      longest: 100,
    });
  });
});
