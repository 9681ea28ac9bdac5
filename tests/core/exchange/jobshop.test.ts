import { describe, expect, it } from 'vitest';
import { type JobShop, jobShopAsShop, readJobShop } from '../../../core/exchange';
import { faultsOf, runsOf } from '../../../core/shop';

function read(text: string): JobShop {
  const result = readJobShop(text, 'own');
  if (!result.ok) throw new Error(result.faults[0]?.say);
  return result.value;
}

function sayOf(text: string): string {
  const result = readJobShop(text, 'own');
  return result.ok ? 'taken' : (result.faults[0]?.say ?? '');
}

const only = (machine: number, minutes: number) => ({ alternatives: [{ machine, minutes }] });

// Fisher & Thompson (1963), the 6x6 instance known as ft06, as the public instance collections give it.
const FT06 = `Fisher and Thompson 6x6 instance
6 6
2 1 0 3 1 6 3 7 5 3 4 6
1 8 2 5 4 10 5 10 0 10 3 4
2 5 3 4 5 8 0 9 1 1 4 7
1 5 0 5 2 5 3 3 4 8 5 9
2 9 1 3 4 5 5 4 0 3 3 1
1 3 3 3 5 9 0 10 4 4 2 1
`;

describe('a classical file', () => {
  it('may hold operations that take no time, as one of the published ones does', () => {
    const shop = jobShopAsShop(read('2 2\n0 3 1 0\n1 2 0 4\n'));
    expect(shop.jobs.map((job) => job.route.map((o) => o.machines[0]?.cycle))).toEqual([
      [3, 0],
      [2, 4],
    ]);
  });

  it('is read with its machines counted from 0', () => {
    const { machines, jobs, name } = read(FT06);
    expect([name, machines, jobs.length]).toEqual(['own', 6, 6]);
    expect(jobs[0]?.slice(0, 2)).toEqual([only(2, 1), only(0, 3)]);
    expect(jobs.flat().reduce((sum, o) => sum + (o.alternatives[0]?.minutes ?? 0), 0)).toBe(197);
  });

  it('is read the same with its machines counted from 1', () => {
    const fromOne = FT06.replace(/^\d.*$/gm, (line) =>
      line === '6 6' ? line : line.replace(/(\d+) (\d+)/g, (_, m, d) => `${Number(m) + 1} ${d}`),
    );
    expect(read(fromOne)).toEqual(read(FT06));
  });

  it('may hold remarks, blank lines, tabs and Windows line ends', () => {
    const noisy = `# a remark\r\n\r\n${FT06.replaceAll(' ', '\t').replaceAll('\n', '   // here\r\n\r\n')}; the end\r\n`;
    expect(read(noisy.replace('Fisher', 'A Fisher'))).toEqual(read(FT06));
  });

  it('may break a job over several lines', () => {
    expect(read('2 2\n0 3\n1 4\n1 5\n0 6\n')).toEqual(read('2 2\n0 3 1 4\n1 5 0 6\n'));
  });

  it('may have jobs of different length that visit a machine again', () => {
    expect(read('3 3\n0 4 1 2 0 6\n2 7\n1 3 2 5\n').jobs).toEqual([
      [only(0, 4), only(1, 2), only(0, 6)],
      [only(2, 7)],
      [only(1, 3), only(2, 5)],
    ]);
  });

  it('counts machines from 0 where the numbers do not tell', () => {
    expect(read('2 4\n1 4 2 2\n2 7 1 3\n').jobs[0]).toEqual([only(1, 4), only(2, 2)]);
  });
});

describe('a flexible file', () => {
  // Own instance: job 1 has two operations, the first on machine 1 or 2; job 2 one operation on any machine.
  const flexible = '2 3 1.7\n2 2 1 5 2 7 1 3 4\n1 3 1 6 2 6 3 9\n';

  it('is told from a classical one by its shape', () => {
    expect(read(flexible).jobs).toEqual([
      [
        {
          alternatives: [
            { machine: 0, minutes: 5 },
            { machine: 1, minutes: 7 },
          ],
        },
        only(2, 4),
      ],
      [{ alternatives: [0, 1, 2].map((machine) => ({ machine, minutes: machine === 2 ? 9 : 6 })) }],
    ]);
  });

  it('needs no third number in its first line', () => {
    expect(read(flexible.replace(' 1.7', ''))).toEqual(read(flexible));
  });

  it('may count its machines from 0', () => {
    expect(read('2 3\n2 2 0 5 1 7 1 2 4\n1 3 0 6 1 6 2 9\n')).toEqual(read(flexible));
  });

  it('with a third number is flexible even where a classical reading is possible', () => {
    expect(read('1 2 1\n1 1 2 5\n').jobs).toEqual([[only(1, 5)]]);
  });
});

describe('a file that is no job shop', () => {
  it.each<[string, string, RegExp]>([
    ['is empty', '', /^Job-shop file: expected the number of jobs.*such as "6 6".*Correct/],
    ['has only words', 'hello\nthere\n', /expected the number of jobs/],
    ['begins with one number', '6\n', /line 1: expected the number of jobs/],
    ['has no jobs', '0 6\n', /line 1: expected/],
    ['has a word among its numbers', '2 2\n0 3 1 x\n1 5 0 6\n', /line 2: "x" is not a number.*begin the line with #/],
    ['has part of a minute', '2 2\n0 3 1 2.5\n1 5 0 6\n', /line 2: 2.5 is not a whole number/],
    ['has a duration below 0', '2 2\n0 3 1 4\n1 -5 0 6\n', /line 3: -5 is not a whole number/],
    ['has a job less than it says', '3 2\n0 3 1 4\n1 5 0 6\n', /first line says 3 jobs, and 2 lines of jobs follow/],
    ['has half a pair', '2 2\n0 3 1 4\n1 5 0\n', /line 3: .*pairs of machine and duration, and this line has 3/],
    ['names a machine there is not', '2 2\n0 3 1 4\n1 5 7 6\n', /line 3: there is no machine 7 among 2/],
    ['counts machines from 0 and from 1', '2 2\n0 3 1 4\n1 5 2 6\n', /line 3: machines count from 0 elsewhere/],
    [
      'ends inside a flexible job',
      '2 3 1\n2 2 1 5 2 7 1 3 4\n1 3 1 6 2 6\n',
      /line 3: the file ends before the last job/,
    ],
    ['has numbers after the last flexible job', '1 3 1\n1 2 1 5 2 7 9\n', /line 2: numbers are left over after job 1/],
  ])('because it %s is refused with line and remedy', (_, text, say) => {
    expect(sayOf(text)).toMatch(say);
    expect(readJobShop(text, 'own')).toMatchObject({ ok: false, faults: [{ code: 'bad-job-shop' }] });
  });
});

describe('a job shop as a shop', () => {
  const shop = jobShopAsShop(read(FT06));

  it('has nothing wrong with it', () => {
    expect(faultsOf(shop, shop.planFrom ?? '')).toEqual([]);
  });

  it('has a run for each operation, no hands, no pallets, and places without limit', () => {
    expect(runsOf(shop)).toHaveLength(36);
    expect([shop.people, shop.pallets, shop.cells]).toEqual([[], [], []]);
    expect(shop.machines.every((m) => m.places === null && m.hours.length === 0)).toBe(true);
    expect(shop.jobs[0]?.route[0]?.machines).toEqual([{ machine: 'M3', cycle: 1 }]);
  });

  it('costs nothing but its finish', () => {
    expect(Object.entries(shop.weights).filter(([, weight]) => weight !== 0)).toEqual([['finish', 1]]);
  });

  it('plans far enough ahead for all its operations one after the other', () => {
    const long = jobShopAsShop({ name: 'long', machines: 1, jobs: [[only(0, 5000)], [only(0, 4000)]] });
    expect(long.horizonDays * 1440).toBeGreaterThanOrEqual(9000);
    expect(faultsOf(long, long.planFrom ?? '')).toEqual([]);
  });

  it('takes the quicker of two cycles given for one machine', () => {
    const operation = { alternatives: [0, 0].map((machine, i) => ({ machine, minutes: 9 - i })) };
    expect(jobShopAsShop({ name: '', machines: 1, jobs: [[operation]] }).jobs[0]?.route[0]?.machines).toEqual([
      { machine: 'M1', cycle: 8 },
    ]);
  });
});
