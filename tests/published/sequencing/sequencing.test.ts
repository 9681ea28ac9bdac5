import { describe, expect, it } from 'vitest';
import type { Shop } from '../../../core/shop';
import { after, flowShop, jobShop, oneMachine, parallel, planned } from './plan';

/**
 * Small sequencing cases from textbooks, planned by the ordinary engine. All optima were found again by full
 * enumeration; "from memory" says that the book's own page was not at hand.
 */

async function makespanOf(shop: Shop): Promise<number> {
  const { plan, verdict, makespan } = await planned(shop);
  expect(verdict.breaches).toEqual([]);
  expect(plan.left).toEqual([]);
  expect(plan.bound!.finish * 60).toBeLessThanOrEqual(makespan + 1e-6);
  return makespan;
}

async function latenessOf(shop: Shop): Promise<number> {
  const { plan, verdict, lateness } = await planned(shop);
  expect(verdict.breaches).toEqual([]);
  expect(plan.left).toEqual([]);
  expect(plan.bound!.lateness * 60).toBeLessThanOrEqual(lateness + 1e-6);
  return lateness;
}

describe('two machines in a row end as soon as Johnson (1954) says they can', () => {
  it.each([
    // Heizer & Render, Operations Management, short-term scheduling; from memory.
    {
      optimum: 35,
      jobs: [
        [5, 2],
        [3, 6],
        [8, 4],
        [10, 7],
        [7, 12],
      ],
    },
    // Stevenson, Operations Management, scheduling; from memory.
    {
      optimum: 51,
      jobs: [
        [5, 5],
        [4, 3],
        [8, 9],
        [2, 7],
        [6, 8],
        [12, 15],
      ],
    },
    // A public exercise; its own totals (42, 39) are wrong, 43 is Johnson's.
    {
      optimum: 43,
      jobs: [
        [3, 8],
        [12, 10],
        [5, 9],
        [2, 6],
        [9, 3],
        [11, 1],
      ],
    },
    // A public exercise; answer by Johnson's rule.
    {
      optimum: 93,
      jobs: [
        [10, 11],
        [8, 17],
        [14, 10],
        [13, 7],
        [10, 8],
        [25, 9],
        [6, 15],
      ],
    },
  ])('in $optimum minutes', async ({ optimum, jobs }) => {
    expect(await makespanOf(flowShop(jobs))).toBe(optimum);
  });
});

describe('more machines', () => {
  it('plans five jobs through four machines no longer than the best permutation, 32', async () => {
    // Pinedo, Scheduling, ch. 6; from memory. Jobs may pass each other here, so a shorter plan would be legal too.
    const jobs = [
      [5, 4, 4, 3],
      [5, 4, 4, 6],
      [3, 2, 3, 3],
      [6, 4, 4, 2],
      [3, 4, 1, 5],
    ];
    expect(await makespanOf(flowShop(jobs))).toBeLessThanOrEqual(32);
  });

  it('plans the job shop of three jobs on four machines in 28 minutes', async () => {
    // Pinedo, Scheduling, ch. 7; from memory. The worst active schedule takes 44.
    const shop = jobShop([
      [
        [0, 10],
        [1, 8],
        [2, 4],
      ],
      [
        [1, 8],
        [0, 3],
        [3, 5],
        [2, 6],
      ],
      [
        [0, 4],
        [1, 7],
        [3, 3],
      ],
    ]);
    expect(await makespanOf(shop)).toBe(28);
  });

  it.each([
    // Graham (1969): instances on which "longest first" does worst, 7, 11 and 15 minutes; instances from memory.
    { minutes: [3, 3, 2, 2, 2], machines: 2, optimum: 6 },
    { minutes: [5, 5, 4, 4, 3, 3, 3], machines: 3, optimum: 9 },
    { minutes: [7, 7, 6, 6, 5, 5, 4, 4, 4], machines: 4, optimum: 12 },
    // An encyclopaedia's example of list scheduling, which itself ends at 18 and 13.
    { minutes: [4, 5, 6, 7, 8], machines: 2, optimum: 15 },
    { minutes: [4, 5, 6, 7, 8], machines: 3, optimum: 11 },
  ])('shares jobs of $minutes minutes among $machines equal machines in $optimum', async (given) => {
    expect(await makespanOf(parallel(given.minutes, given.machines))).toBe(given.optimum);
  });

  it('keeps the largest lateness after release times at 5 minutes', async () => {
    // Pinedo, Scheduling, ch. 3 (branch and bound); from memory. A tail of 13 - due after each job on a machine of its
    // own makes the largest lateness plus 13 the makespan.
    const jobs = [
      { minutes: 4, release: 0, due: 8 },
      { minutes: 2, release: 1, due: 12 },
      { minutes: 6, release: 3, due: 11 },
      { minutes: 5, release: 5, due: 10 },
    ];
    const shop = jobShop(
      jobs.map(({ minutes, due }, j) => [
        [0, minutes],
        [j + 1, 13 - due],
      ]),
    );
    const released = { ...shop, jobs: shop.jobs.map((job, j) => ({ ...job, release: after(jobs[j]!.release) })) };
    expect(await makespanOf(released)).toBe(13 + 5);
  });
});

describe('one machine', () => {
  it('is 370 minutes late in all with five jobs, 28 less than in order of due time', async () => {
    // Pinedo, Scheduling, ch. 3 (total tardiness); from memory.
    const due = [260, 266, 266, 336, 337];
    const jobs = [121, 79, 147, 83, 130].map((minutes, j) => ({ minutes, due: due[j]! }));
    expect(await latenessOf(oneMachine(jobs))).toBe(370);
  });

  it('weighs completion times as Smith (1956) does: 18 for two jobs', async () => {
    // Kleinberg & Tardos, Algorithm Design, ch. 4, exercise.
    const jobs = [
      { minutes: 1, due: 0, weight: 10 },
      { minutes: 3, due: 0, weight: 2 },
    ];
    expect(await latenessOf(oneMachine(jobs))).toBe(18);
  });

  it('weighs completion times as Smith (1956) does: 1610 for seven jobs', async () => {
    // Pinedo, Scheduling, ch. 3, exercise; instance from memory.
    const weight = [0, 18, 12, 8, 8, 17, 16];
    const jobs = [3, 6, 6, 5, 4, 8, 9].map((minutes, j) => ({ minutes, due: 0, weight: weight[j]! }));
    expect(await latenessOf(oneMachine(jobs))).toBe(1610);
  });

  it.each([
    // Heizer & Render, Operations Management; from memory. Tardiness in order of due time: 1.2 a job.
    { minutes: [6, 2, 8, 3, 9], due: [8, 6, 18, 15, 23], mean: 13, tardiness: 1.2 },
    // Stevenson, Operations Management; from memory. Tardiness in order of due time: 6.33 a job.
    { minutes: [2, 8, 4, 10, 5, 12], due: [7, 16, 4, 17, 15, 18], mean: 18, tardiness: 38 / 6 },
  ])('completes on average after $mean minutes, as shortest first does', async ({ minutes, due, mean, tardiness }) => {
    const count = minutes.length;
    expect(await latenessOf(oneMachine(minutes.map((m) => ({ minutes: m, due: 0 }))))).toBeCloseTo(mean * count, 6);
    const late = await latenessOf(oneMachine(minutes.map((m, j) => ({ minutes: m, due: due[j]! }))));
    expect(late).toBeLessThanOrEqual(tardiness * count + 1e-6);
  });
});
