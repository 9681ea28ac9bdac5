import { describe, expect, it } from 'vitest';
import { LinearProgramBuilder } from '../../../core/linear';
import { boundOf, isFeasible, isProvedBest } from '../../../core/linear/certificate';

/** 3x + 5y, x at most 4 as a bound, 2y <= 12, 3x + 2y <= 18: best at (2, 6) with 36, duals 1.5 and 1. */
function wyndor(integer = false) {
  const builder = new LinearProgramBuilder('maximise');
  const [x, y] = [builder.column(3, { upper: 4, integer }), builder.column(5)];
  const [second, third] = [builder.atMost(12), builder.atMost(18)];
  builder.term(second, y, 2);
  builder.term(third, x, 3);
  builder.term(third, y, 2);
  return builder.build();
}

describe('checking a solver', () => {
  it('accepts a point on its limits and refuses one beyond a bound or a row', () => {
    expect(isFeasible(wyndor(), Float64Array.of(2, 6))).toBe(true);
    expect(isFeasible(wyndor(), Float64Array.of(4, 3))).toBe(true);
    expect(isFeasible(wyndor(), Float64Array.of(4.001, 0))).toBe(false);
    expect(isFeasible(wyndor(), Float64Array.of(-0.001, 0))).toBe(false);
    expect(isFeasible(wyndor(), Float64Array.of(2.001, 6))).toBe(false);
    expect(isFeasible(wyndor(), Float64Array.of(Number.NaN, 0))).toBe(false);
  });

  it('refuses a broken number where a whole one is due', () => {
    expect(isFeasible(wyndor(true), Float64Array.of(2, 5.5))).toBe(true);
    expect(isFeasible(wyndor(true), Float64Array.of(1.5, 6))).toBe(false);
  });

  it('proves an optimum by its duals', () => {
    expect(boundOf(wyndor(), Float64Array.of(1.5, 1))).toBeCloseTo(36, 9);
    expect(isProvedBest(wyndor(), 36, Float64Array.of(1.5, 1))).toBe(true);
  });

  it('never proves less than the optimum, whatever the duals', () => {
    expect(boundOf(wyndor(), Float64Array.of(2.5, 0))).toBeCloseTo(42, 9);
    expect(boundOf(wyndor(), Float64Array.of(0, 2.5))).toBeCloseTo(45, 9);
    // Without duals y has no limit; with a negative one neither has the row.
    expect(boundOf(wyndor(), Float64Array.of(0, 0))).toBe(Infinity);
    expect(boundOf(wyndor(), Float64Array.of(3, -1))).toBe(Infinity);
  });

  it('does not take a worse point for the optimum', () => {
    expect(isProvedBest(wyndor(), 35.9, Float64Array.of(1.5, 1))).toBe(false);
    expect(isProvedBest(wyndor(), 36, Float64Array.of(2.5, 0))).toBe(false);
  });
});
