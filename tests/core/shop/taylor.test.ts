import { describe, expect, it } from 'vitest';
import type { Result } from '../../../core/shop';
import { constantFrom, exponentFrom, lifeFromSpeed, speedFromLife, USUAL_EXPONENTS } from '../../../core/shop';

function given(result: Result<number>): number {
  if (!result.ok) throw new Error(result.faults.map((fault) => fault.say).join(' '));
  return result.value;
}

function saidOf(result: Result<number>): string {
  return result.ok ? '' : result.faults.map((fault) => fault.say).join(' ');
}

const known = { speed: 100, life: 41 };

describe('lives by cutting speed', () => {
  // Own figures: the curve must lead back to where it began.
  it('gives back the life it began with at its own speed, and the speed for it', () => {
    expect(given(lifeFromSpeed(known, 0.25, 100))).toBeCloseTo(41, 9);
    const speed = given(speedFromLife(known, 0.25, 90));
    expect(given(lifeFromSpeed(known, 0.25, speed))).toBeCloseTo(90, 9);
  });

  it('finds again the exponent two lives were made with, whichever is given first', () => {
    const other = { speed: 140, life: given(lifeFromSpeed(known, 0.3, 140)) };
    expect(given(exponentFrom(known, other))).toBeCloseTo(0.3, 9);
    expect(given(exponentFrom(other, known))).toBeCloseTo(0.3, 9);
  });

  it('has a constant that is the speed for a life of one minute', () => {
    expect(given(speedFromLife(known, 0.25, 1))).toBeCloseTo(given(constantFrom(known, 0.25)), 9);
  });

  it('answers less to speed where the exponent is higher', () => {
    const lives = USUAL_EXPONENTS.map(({ most }) => given(lifeFromSpeed(known, most, 120)));
    expect(lives).toEqual([...lives].sort((a, b) => a - b));
  });
});

describe('what it refuses', () => {
  it('refuses speeds, lives and exponents of nothing, each with a sentence', () => {
    expect(saidOf(lifeFromSpeed({ speed: 0, life: 41 }, 0.25, 90))).toMatch(/speed must be above 0 m\/min/);
    expect(saidOf(lifeFromSpeed(known, 0.25, -1))).toMatch(/speed must be above 0 m\/min/);
    expect(saidOf(speedFromLife(known, 0.25, 0))).toMatch(/life must be above 0 min/);
    expect(saidOf(constantFrom(known, 0))).toMatch(/n must be above 0/);
    expect(saidOf(constantFrom(known, Number.NaN))).toMatch(/n must be above 0/);
  });

  it('takes an exponent of 1 and refuses one above', () => {
    expect(given(lifeFromSpeed(known, 1, 50))).toBeCloseTo(82, 9);
    expect(saidOf(lifeFromSpeed(known, 1.01, 50))).toMatch(/n of 1\.01 is above 1/);
  });

  it('refuses two lives that no exponent fits', () => {
    expect(saidOf(exponentFrom(known, { speed: 100, life: 20 }))).toMatch(/same speed/);
    expect(saidOf(exponentFrom(known, { speed: 120, life: 41 }))).toMatch(/120 m\/min the tool would last no shorter/);
    expect(saidOf(exponentFrom(known, { speed: 90, life: 30 }))).toMatch(/100 m\/min the tool would last no shorter/);
    expect(saidOf(exponentFrom(known, { speed: 200, life: 40 }))).toMatch(/above 1/);
  });

  it('refuses a life too far from what was measured', () => {
    expect(saidOf(lifeFromSpeed(known, 0.08, 20))).toMatch(/too far from 100 m\/min/);
  });
});
