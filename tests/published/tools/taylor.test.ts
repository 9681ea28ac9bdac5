import { expect, it } from 'vitest';
import { constantFrom, exponentFrom, lifeFromSpeed, type Result, speedFromLife } from '../../../core/shop';

function given(result: Result<number>): number {
  if (!result.ok) throw new Error(result.faults.map((fault) => fault.say).join(' '));
  return result.value;
}

// Groover, Fundamentals of Modern Manufacturing, example 22.1 (read in a public source): 160 m/min lasts 5 min and 100
// m/min lasts 41 min; there n = 0.223 and C = 229 m/min.
it('finds the exponent and the constant of the textbook from two lives', () => {
  const [fast, slow] = [
    { speed: 160, life: 5 },
    { speed: 100, life: 41 },
  ];
  const exponent = given(exponentFrom(fast, slow));
  expect(Math.abs(exponent - 0.223)).toBeLessThanOrEqual(0.0005);
  for (const point of [fast, slow]) {
    expect(Math.abs(given(constantFrom(point, exponent)) - 229)).toBeLessThanOrEqual(0.5);
  }
});

// A textbook exercise sheet (its speeds and exponents were read there; the answers are computed from the formula
// T2 / T1 = (V1 / V2)^(1 / n), not printed on the sheet).
it.each([
  [0.5, 0.5, 300],
  [0.5, 0.25, 1500],
  [0.4, 0.8, 74.7],
  [0.4, 1.3, -48.1],
])('with n %d at %d of the speed the life changes by %d %%', (exponent, factor, percent) => {
  const life = given(lifeFromSpeed({ speed: 100, life: 60 }, exponent, 100 * factor));
  expect(Math.abs((life / 60 - 1) * 100 - percent)).toBeLessThanOrEqual(0.05);
});

// Groover, example 23.3 (read in a public source): n = 0.125 and C = 70 m/min; 50 m/min lasts about 14 min (longest output)
// where changing the tool takes 2 min, and 42 m/min lasts about 56 min (least cost). The lives are T = (1 / n - 1) Tt and
// T = (1 / n - 1) (Co Tt + Ct) / Co with Co = 0.5 a minute and Ct = 3 an edge.
it.each([
  [(1 / 0.125 - 1) * 2, 14, 50],
  [((1 / 0.125 - 1) * (0.5 * 2 + 3)) / 0.5, 56, 42],
])('a life of %d min, in the textbook %d, belongs to %d m/min', (life, printed, speed) => {
  expect(life).toBeCloseTo(printed, 6);
  const known = { speed: 70, life: 1 };
  expect(Math.abs(given(speedFromLife(known, 0.125, life)) - speed)).toBeLessThanOrEqual(0.5);
});

// Groover, example 23.4 (read in a public source): on the same curve an edge lasts 14.76 min at 50 m/min and 59.54 min at
// 42 m/min, so it cuts 1 and 3 whole pieces of 12.57 and 14.96 min.
it.each([
  [50, 14.76, 12.57, 1],
  [42, 59.54, 14.96, 3],
])('at %d m/min the edge lasts %d min, for whole cuts of %d min: %d', (speed, printed, cut, pieces) => {
  const life = given(lifeFromSpeed({ speed: 70, life: 1 }, 0.125, speed));
  expect(Math.abs(life - printed)).toBeLessThanOrEqual(0.011);
  expect(Math.floor(life / cut)).toBe(pieces);
});
