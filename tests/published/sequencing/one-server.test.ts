import { describe, expect, it } from 'vitest';
import { planned, tables } from './plan';

/**
 * One person and machines loaded on the table, which cut alone. The model with set-ups only is that of Abdekhodaee &
 * Wirth, Computers & Operations Research 29 (2002); the instances are our own, each optimum found by enumeration and
 * again by a second exact model.
 */
describe('one person who sets up several machines', () => {
  const A = [
    [2, 5],
    [1, 4],
    [3, 6],
    [2, 3],
    [1, 7],
  ] as const;
  const B = Array.from({ length: 6 }, () => [1, 2] as const);
  const C = [
    [4, 1],
    [3, 2],
    [5, 1],
    [2, 6],
  ] as const;
  const D = Array.from({ length: 3 }, () => [2, 8] as const);
  const E = [
    [1, 9],
    [2, 4],
    [3, 3],
    [2, 6],
    [1, 1],
    [2, 7],
  ] as const;
  const G = [
    [1, 6],
    [2, 3],
    [3, 8],
    [1, 2],
    [2, 5],
    [2, 9],
  ] as const;

  it.each([
    { name: 'A', jobs: A, machines: 2, optimum: 18 },
    { name: 'B', jobs: B, machines: 2, optimum: 10 },
    { name: 'C', jobs: C, machines: 2, optimum: 15 },
    { name: 'D', jobs: D, machines: 2, optimum: 20 },
    { name: 'E', jobs: E, machines: 2, optimum: 21 },
    { name: 'G', jobs: G, machines: 2, optimum: 23 },
    { name: 'A', jobs: A, machines: 3, optimum: 13 },
    { name: 'C', jobs: C, machines: 3, optimum: 15 },
  ])('has $name done on $machines machines after $optimum minutes', async ({ jobs, machines, optimum }) => {
    const shop = tables(
      machines,
      jobs.map(([load, cut]) => ({ load, cut, unload: 0 })),
    );
    const { plan, verdict, makespan } = await planned(shop);
    expect(verdict.breaches).toEqual([]);
    expect(makespan).toBe(optimum);
    expect(plan.bound!.finish * 60).toBeLessThanOrEqual(optimum + 1e-6);
  });

  it('is never faster than the published bound for two machines', async () => {
    // Abdekhodaee & Wirth (2002): max(sum s + min p, (sum (s + p) + min s) / 2).
    for (const jobs of [A, B, C, D, E, G]) {
      const setUps = jobs.map(([s]) => s);
      const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
      const bound = Math.max(
        sum(setUps) + Math.min(...jobs.map(([, p]) => p)),
        (sum(jobs.flat()) + Math.min(...setUps)) / 2,
      );
      const { makespan } = await planned(
        tables(
          2,
          jobs.map(([load, cut]) => ({ load, cut, unload: 0 })),
        ),
      );
      expect(makespan).toBeGreaterThanOrEqual(bound);
    }
  });
});

describe('one person who loads for 1 minute and takes off for 1 minute what cuts for 4', () => {
  // Own instances, proved optimal by exact search. Machines beyond three wait for the hands: the textbook cycle is
  // max(load + cut + unload, machines * (load + unload)).
  it.each([
    { runs: 6, machines: 1, optimum: 36 },
    { runs: 6, machines: 2, optimum: 20 },
    { runs: 6, machines: 3, optimum: 16 },
    { runs: 8, machines: 4, optimum: 18 },
  ])('has $runs runs off $machines machines after $optimum minutes', async ({ runs, machines, optimum }) => {
    const shop = tables(
      machines,
      Array.from({ length: runs }, () => ({ load: 1, cut: 4, unload: 1 })),
    );
    const { verdict, makespan } = await planned(shop);
    expect(verdict.breaches).toEqual([]);
    expect(makespan).toBe(optimum);
  });
});
