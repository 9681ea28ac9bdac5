import { describe, expect, it } from 'vitest';
import { benchNights, growthOf } from './nights';
import { WIDTH } from './table';

describe('the benchmark of nights', () => {
  it('tells of a legal plan, its time, its distance from the bound and the time to nearly the last cost', async () => {
    const lines: string[] = [];
    const request = {
      command: 'nights',
      seconds: 0.2,
      seed: 1,
      workers: 1,
      only: ['4/60'],
      operators: [],
      data: null,
    } as const;
    const report = await benchNights({ ...request, json: null, record: false }, (text) =>
      lines.push(...text.split('\n')),
    );
    expect(report.failures).toEqual([]);
    const [row] = report.rows;
    expect(row).toMatchObject({ size: '4/60', runs: 60 });
    expect(row!.secondsToFirst).toBeGreaterThan(0);
    expect(row!.secondsToNearly).toBeGreaterThanOrEqual(row!.secondsToFirst as number);
    expect(row!.stopMilliseconds).toBeGreaterThan(0);
    expect(row!.cost).toBeGreaterThanOrEqual(row!.bound as number);
    for (const text of lines) expect(text.length).toBeLessThanOrEqual(WIDTH);
  });

  it('tells how the times grow with the runs, and where no step tells', () => {
    const rows = [
      { size: '4/60', runs: 60, secondsToFirst: 0.1, stepsPerSecond: 1000 },
      { size: '8/120', runs: 120, secondsToFirst: 0.2, stepsPerSecond: 250 },
      { size: '16/240', runs: 240, secondsToFirst: 0.4, stepsPerSecond: null },
    ];
    expect(growthOf(rows)).toEqual([
      'Time to the first plan grows as runs to the power 1.00.',
      'Time per step grows as runs to the power 2.00.',
      'No step was made at 16/240: it is not in the growth per step.',
    ]);
    expect(growthOf(rows.slice(0, 1))).toEqual([]);
  });
});
