import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { Request } from './arguments';
import { folderOf } from './catalogue';
import { benchPublished } from './published';
import { endWorkers } from './run';
import { WIDTH } from './table';

const folder = mkdtempSync(join(tmpdir(), 'nightload-bench-'));
mkdirSync(join(folder, 'instances'));
cpSync(join(folderOf('jobshop'), 'instances', 'ft06.txt'), join(folder, 'instances', 'ft06.txt'));
afterAll(async () => {
  await endWorkers();
  rmSync(folder, { recursive: true });
});

/** Of one instance, ft06, with bounds of our own: its true optimum is 55 and any plan is below 197, all work in a row. */
async function bench(lower: number, upper: number, evidence: string) {
  writeFileSync(join(folder, 'best-known.tsv'), `ft06\t${lower}\t${upper}\t${evidence}\n`);
  const request: Request = {
    ...{ command: 'jobshop', seconds: 0.1, seed: 1, workers: 1, only: [], operators: [] },
    ...{ data: folder, json: null, record: false },
  };
  const lines: string[] = [];
  const report = await benchPublished('jobshop', request, (text) => lines.push(...text.split('\n')));
  return { report, lines };
}

describe('the benchmark of published instances', () => {
  it('fails, and counts no time, where a plan is below a bound of refereed papers', async () => {
    const { report } = await bench(1000, 1000, 'literature');
    expect(report.failures).toEqual([expect.stringMatching(/^ft06: a plan of \d+ is below 1000/)]);
    expect(report.rows).toEqual([]);
    expect(report.sets).toEqual([]);
  });

  it('fails where our bound is above a plan that refereed papers know', async () => {
    const { report } = await bench(10, 10, 'literature');
    expect(report.failures).toEqual([expect.stringMatching(/^ft06: our bound \d+ is above 10/)]);
  });

  it('only says so where the bound is not from refereed papers', async () => {
    const { report, lines } = await bench(1000, 1000, 'registry');
    expect(report.failures).toEqual([]);
    expect(report.sets).toMatchObject([{ set: 'ft', instances: 1, reached: 1 }]);
    expect(lines.at(-1)).toMatch(/^ft06: \d+ is below the published bound 1000/);
  });

  it('prints a line an instance and a line a set, none too wide for a terminal', async () => {
    const { lines } = await bench(55, 55, 'literature');
    expect(lines.filter((text) => /^ft(06)? /.test(text))).toHaveLength(2);
    for (const text of lines) expect(text.length).toBeLessThanOrEqual(WIDTH);
  });
});
