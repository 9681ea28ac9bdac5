import { describe, expect, it } from 'vitest';
import { planned } from '../published/sequencing/plan';
import { type AttendedJobShop, attendedShop, readAttended } from './attended';

/** Own instance: two jobs of two and three operations, two machines, three workers of differing speed. */
const TEXT = `2 2 3
2 2 0 2 0 4 1 6 1 1 2 3 1 1 2 1 5 2 2
3 1 0 3 0 2 1 3 2 7 1 1 1 0 4 2 0 1 2 5 1 2 0 6 1 3
`;

/** Every order of operations and every choice of machine and worker, each as early as it can be. */
function leastMakespan({ machines, workers, jobs }: AttendedJobShop): number {
  const go = (next: number[], jobAt: number[], machineAt: number[], workerAt: number[]): number => {
    let best = Number.POSITIVE_INFINITY;
    for (const [j, job] of jobs.entries()) {
      for (const { machine, worker, minutes } of job[next[j]!] ?? []) {
        const end = Math.max(jobAt[j]!, machineAt[machine]!, workerAt[worker]!) + minutes;
        const moved = go(
          next.with(j, next[j]! + 1),
          jobAt.with(j, end),
          machineAt.with(machine, end),
          workerAt.with(worker, end),
        );
        best = Math.min(best, moved);
      }
    }
    return best === Number.POSITIVE_INFINITY ? Math.max(...jobAt) : best;
  };
  const zeros = (count: number): number[] => Array.from({ length: count }, () => 0);
  return go(zeros(jobs.length), zeros(jobs.length), zeros(machines), zeros(workers));
}

describe('a job shop whose operations need a machine and a worker', () => {
  it('is planned in the least time any order and any choice of both takes', async () => {
    const jobShop = readAttended(TEXT, 'own.txt');
    const shop = attendedShop('own', jobShop);
    const { plan, verdict, makespan } = await planned(shop);
    expect(verdict.breaches).toEqual([]);
    expect(plan.left).toEqual([]);
    expect(makespan).toBe(leastMakespan(jobShop));
    // Neither without the workers nor without the machines would it take as long.
    expect(makespan).toBeGreaterThan(leastMakespan(withOwn(jobShop, 'worker')));
    expect(makespan).toBeGreaterThan(leastMakespan(withOwn(jobShop, 'machine')));
  });

  it('has each operation done by a worker and on a machine named for it, in the minutes the two take', async () => {
    const jobShop = readAttended(TEXT, 'own.txt');
    const { plan } = await planned(attendedShop('own', jobShop));
    expect(plan.runs).toHaveLength(5);
    for (const { run, work, pallet, start, end } of plan.runs) {
      const [job, operation] = run.split('/').map((part) => Number(part.replace('J', '')) - 1);
      const staffing = jobShop.jobs[job!]![operation!]!.map(
        ({ machine, worker, minutes }) => `M${machine + 1} W${worker + 1} ${minutes}`,
      );
      expect(staffing).toContain(`${pallet} ${work!.person} ${end - start}`);
    }
  });

  it.each([
    ['', 'number 1 is missing'],
    ['1 1 1\n1 1 0 1 1 5', 'number 8 is 1, no worker'],
    ['1 1 1\n1 1 1 1 0 5', 'number 6 is 1, no machine'],
    ['1 1 1\n1 1 0 1 0 5 9', 'numbers are left over'],
  ])('is refused where its text is none: %j', (text, say) => {
    expect(() => readAttended(text, 'own.txt')).toThrow(say);
  });
});

/** Each job with workers, or machines, of its own: what it would take if they were not scarce. */
function withOwn(jobShop: AttendedJobShop, kind: 'machine' | 'worker'): AttendedJobShop {
  const { machines, workers } = jobShop;
  const count = kind === 'machine' ? machines : workers;
  const jobs = jobShop.jobs.map((job, j) =>
    job.map((operation) => operation.map((one) => ({ ...one, [kind]: one[kind] + j * count }))),
  );
  return { machines: machines * jobs.length, workers: workers * jobs.length, jobs };
}
