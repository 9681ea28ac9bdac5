import { describe, expect, it } from 'vitest';
import { readJobShop } from '../../core/exchange';
import { jobShopContest } from './contest';
import { solveByMiniZinc } from './minizinc';

/** Pinedo, Scheduling, ch. 7 (from memory), made rectangular: 28 minutes. */
const TEXT = `3 4
0 10 1 8 2 4 3 0
1 8 0 3 3 5 2 6
0 4 1 7 3 3 2 0
`;

describe('a classical job shop given to general solvers', () => {
  const read = readJobShop(TEXT, 'textbook');
  const contest = jobShopContest(read.ok ? read.value : { name: '', machines: 0, jobs: [] });

  it.each(['highs', 'minizinc'] as const)(
    'is proved to take 28 minutes by %s, in a legal plan',
    async (contender) => {
      const entry = await contest.enter[contender](60, 1);
      expect(entry).toMatchObject({ cost: 28, bound: 28, isProved: true, breaches: [] });
    },
    120_000,
  );
});

const CHUFFED = { solver: 'chuffed', isFree: true } as const;

describe('MiniZinc', () => {
  it('says in the compiler’s words what is wrong with a model', async () => {
    await expect(solveByMiniZinc('int: n; var 1..n: x; solve minimize y;', { n: 3 }, CHUFFED, 30)).rejects.toThrow(
      /undefined.*y/,
    );
  }, 60_000);

  it('has no solution, and proves none, where there is none', async () => {
    const answer = await solveByMiniZinc(
      'int: n; var 1..n: x; constraint x > n; solve minimize x;',
      { n: 3 },
      CHUFFED,
      30,
    );
    expect(answer).toMatchObject({ solutions: [], isProved: false });
  }, 60_000);
});
