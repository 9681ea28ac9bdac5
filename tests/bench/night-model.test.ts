import { describe, expect, it } from 'vitest';
import { faultsOf } from '../../core/shop';
import { nightOf, type Shape } from '../published/exact/generate';
import { MOMENT, type NightCase, shopOf } from '../published/exact/night-case';
import { COMPARE_SIZES, compareCase } from './compare-case';
import { type Entry, nightContest } from './contest';

const weights = { lateness: 1, tonight: 2, finish: 0.01 };

/** Longer than any of these takes: they end when the optimum is proved. */
const AMPLE = 60;

async function both(night: NightCase): Promise<[Entry, Entry]> {
  const { enter } = nightContest('own', night);
  return [await enter.highs(AMPLE, 1), await enter.minizinc(AMPLE, 1)];
}

describe('a small night as a constraint model', () => {
  // Own nights; what both general solvers prove from two models that share nothing must be the same.
  it.each<{ seed: number; shape: Omit<Shape, 'weights'> }>([
    { seed: 10, shape: { cell: true, closed: true } },
    { seed: 7, shape: { table: true, pause: true, routes: true, checks: true } },
  ])(
    'has the optimum of the integer program, and a legal plan of that cost: night $seed, $shape',
    async (row) => {
      const [program, model] = await both(nightOf(row.seed, { ...row.shape, weights }));
      expect([program.breaches, model.breaches]).toEqual([[], []]);
      expect([program.isProved, model.isProved]).toEqual([true, true]);
      expect(model.cost).toBeCloseTo(program.cost!, 4);
      expect(model.bound).toBeCloseTo(program.cost!, 4);
    },
    120_000,
  );
});

describe('a night to compare on', () => {
  it.each(COMPARE_SIZES)('has $runs runs on $machines machines, all times in slots of $slot minutes', (size) => {
    const night = compareCase(size, 1);
    const shop = shopOf(night);
    expect(faultsOf(shop, MOMENT).filter((fault) => fault.level === 'error')).toEqual([]);
    expect(shop.machines).toHaveLength(size.machines);
    const operations = night.jobs.flatMap(({ steps }) => steps);
    expect(night.jobs.reduce((sum, { runs, steps }) => sum + runs * steps.length, 0)).toBe(size.runs);
    const times = [
      ...night.jobs.flatMap(({ due, release }) => [due, release]),
      ...operations.flatMap(({ load, unload, lag, check }) => [load, unload, lag, check?.after ?? 0]),
      ...operations.flatMap(({ machines }) => machines.map(({ cycle }) => cycle)),
    ];
    expect(times.filter((time) => time % size.slot !== 0)).toEqual([]);
  });

  it('is the same for the same seed and another for another', () => {
    const [size] = COMPARE_SIZES;
    expect(compareCase(size!, 3)).toEqual(compareCase(size!, 3));
    expect(compareCase(size!, 3).jobs).not.toEqual(compareCase(size!, 4).jobs);
  });
});
