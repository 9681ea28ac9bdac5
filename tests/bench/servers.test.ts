import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { referee } from '../../core/referee';
import type { PlannedRun } from '../../core/shop';
import { planned } from '../published/sequencing/plan';
import { serverProblems } from './servers';

const folder = mkdtempSync(join(tmpdir(), 'nightload-servers-'));
afterAll(() => rmSync(folder, { recursive: true }));

type Sequences = [setUp: number, alone: number][][];

function fixed(sequences: Sequences, lower: number, upper: number) {
  const instance = { name: 'own', machines: sequences.length, lower, upper, sequences };
  writeFileSync(join(folder, 'single-server-fixed-sequence.json'), JSON.stringify({ instances: [instance] }));
  return serverProblems(folder)[0]!;
}

/** Every order of the set-ups, each as early as it can be. */
function leastMakespan(sequences: Sequences): number {
  const go = (next: readonly number[], machineAt: readonly number[], server: number): number => {
    let best = Number.POSITIVE_INFINITY;
    for (const [m, sequence] of sequences.entries()) {
      const job = sequence[next[m]!];
      if (job === undefined) continue;
      const set = Math.max(server, machineAt[m]!) + job[0];
      const after = machineAt.map((at, i) => (i === m ? set + job[1] : at));
      best = Math.min(
        best,
        go(
          next.map((n, i) => (i === m ? n + 1 : n)),
          after,
          set,
        ),
      );
    }
    return best === Number.POSITIVE_INFINITY ? Math.max(...machineAt) : best;
  };
  return go(
    sequences.map(() => 0),
    sequences.map(() => 0),
    0,
  );
}

/** Own instances. */
const OWN: Sequences[] = [
  [
    [
      [1, 3],
      [2, 1],
      [3, 2],
    ],
    [
      [2, 2],
      [1, 4],
      [3, 5],
    ],
  ],
  [
    [
      [1, 0],
      [3, 6],
      [2, 0],
    ],
    [
      [2, 5],
      [2, 1],
    ],
    [
      [3, 2],
      [1, 1],
    ],
  ],
  [
    [
      [3, 1],
      [3, 1],
      [3, 1],
    ],
    [[1, 9]],
    [
      [1, 7],
      [1, 2],
    ],
  ],
  [
    [
      [2, 0],
      [2, 0],
    ],
    [
      [1, 0],
      [1, 0],
    ],
    [
      [3, 0],
      [3, 3],
    ],
  ],
];

describe('one person who sets up machines, each with its jobs in a given order', () => {
  it.each(OWN.map((sequences) => ({ sequences, least: leastMakespan(sequences) })))(
    'has $sequences done in the least time any order of set-ups takes, $least',
    async ({ sequences, least }) => {
      const { plan, verdict, makespan } = await planned(fixed(sequences, least, least).shop());
      expect(verdict.breaches).toEqual([]);
      expect(plan.left).toEqual([]);
      expect(makespan).toBe(least);
      for (const run of plan.runs) expect(run.load!.end).toBe(run.start);
    },
  );

  it('is vouched for by counting only where the busiest machine or all set-ups take that long', () => {
    expect(
      fixed(
        [
          [
            [2, 3],
            [1, 4],
          ],
          [[1, 1]],
        ],
        10,
        10,
      ).evidence,
    ).toBe('trivial');
    expect(
      fixed(
        [
          [
            [2, 3],
            [1, 4],
          ],
          [[1, 1]],
        ],
        11,
        11,
      ).evidence,
    ).toBe('table');
    expect(fixed([[[2, 1]], [[5, 2]], [[4, 3]]], 12, 12).evidence).toBe('trivial');
  });
});

describe('one person who loads and unloads two machines', () => {
  // Own instance. By enumeration: 20 where a job must be taken off the moment it ends, 16 where it may wait.
  const jobs = { loading: [2, 4, 4], processing: [3, 2, 5], unloading: [3, 1, 2] };
  const other = mkdtempSync(join(folder, 'unload-'));
  writeFileSync(
    join(other, 'single-server-load-unload.json'),
    JSON.stringify({ instances: [{ name: 'own', machines: 2, computedOptimal: 20, ...jobs }] }),
  );
  const problem = serverProblems(other)[0]!;

  it('may be done sooner than the published model allows, as a finished part may wait on its table', async () => {
    const shop = problem.shop();
    const { plan } = await planned(shop);
    const at = (job: number, machine: number, load: number, unload: number): PlannedRun => {
      const { run } = plan.runs.find((one) => one.run.startsWith(`J${job}/`))!;
      const [start, off] = [load + jobs.loading[job - 1]!, unload + jobs.unloading[job - 1]!];
      const hand = (from: number, to: number) => ({ person: 'Server', start: from, end: to });
      return {
        ...{ run, machine: `M${machine}`, pallet: null, check: null, work: null },
        ...{ load: hand(load, start), start, end: start + jobs.processing[job - 1]!, unload: hand(unload, off) },
      };
    };
    const runs = [at(1, 1, 0, 6), at(3, 2, 2, 13), at(2, 1, 9, 15)];
    const { cost } = referee(shop, { ...plan, runs });
    expect(referee(shop, { ...plan, runs, cost }).breaches).toEqual([]);
    expect(Math.round(cost.finish * 60)).toBe(16);
    expect(problem.upper).toBe(20);
  });

  it('is planned no sooner than what enumeration finds, and sooner than without waiting', async () => {
    const { verdict, makespan } = await planned(problem.shop());
    expect(verdict.breaches).toEqual([]);
    expect(makespan).toBeGreaterThanOrEqual(16);
    expect(makespan).toBeLessThan(20);
  });

  it('is never done sooner than twice the makespan can hold the work and what each end leaves unused', () => {
    expect(problem.lower).toBe(Math.ceil((26 + 2 + 1) / 2));
  });
});

describe('a folder of instances with one server', () => {
  it('is refused where it has neither file, or one that is no such file', () => {
    const empty = mkdtempSync(join(folder, 'empty-'));
    expect(() => serverProblems(empty)).toThrow('There is neither');
    writeFileSync(join(empty, 'single-server-load-unload.json'), '{"instances":[{"name":"x"}]}');
    expect(() => serverProblems(empty)).toThrow('single-server-load-unload.json: instances/0/machines');
    writeFileSync(join(empty, 'single-server-load-unload.json'), 'x');
    expect(() => serverProblems(empty)).toThrow('is no JSON');
  });
});
