import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { solveLinear } from '../../../core/linear';
import { type CoverCase, leastByMinutes } from '../../../core/night/presets-case';
import { fewestToCover } from '../../../core/night/presets-cover';
import { sharedProgram } from '../../../core/night/presets-shared';
import { wholeProgram } from '../../../core/night/presets-whole';
import { SOLVERS } from '../linear/programs';
import { fewestByCounting, sharedCases, wholeCases } from './cover';

const cases: readonly (readonly [string, fc.Arbitrary<CoverCase>])[] = [
  ['taken whole from one tool', wholeCases],
  ['that tools may share', sharedCases],
];

describe.each(cases)('the fewest new tools for cuts %s', (_, arbitrary) => {
  it.each(SOLVERS)('are those found by trying everything: %s', async (solver) => {
    const met = new Set<number>();
    let own = 0;
    await fc.assert(
      fc.asyncProperty(arbitrary, async (cover) => {
        const program = cover.whole ? wholeProgram(cover) : sharedProgram(cover);
        const solution = await solveLinear(program!, { solver });
        const fewest = fewestByCounting(cover);
        expect(solution.ending).toBe('optimal');
        expect(solution.objective).toBeCloseTo(fewest, 6);
        met.add(fewest);
        own += Number(solution.solver === solver);
      }),
      { seed: 41, numRuns: 150 },
    );
    expect(met.size).toBeGreaterThan(2);
    // javascript-lp-solver hands on what it cannot answer for; nearly all of these it can.
    expect(own).toBeGreaterThan(140);
  });

  it('are never fewer than minutes alone ask for, nor more for a tool more in the magazine', async () => {
    await fc.assert(
      fc.asyncProperty(arbitrary, async (cover) => {
        const fewest = (await fewestToCover(cover)) ?? Number.NaN;
        expect(fewest).toBeGreaterThanOrEqual(leastByMinutes(cover));
        const richer = { ...cover, held: [...cover.held, { left: cover.life, dressedBefore: [] }] };
        expect(await fewestToCover(richer)).toBe(Math.max(0, fewest - 1));
      }),
      { seed: 43, numRuns: 100 },
    );
  });
});

describe('the covering program', () => {
  const cut = (minutes: number, alone = false) => ({ minutes, alone });
  const whole = { whole: true, life: 100, reserve: 0, every: null, held: [] };

  // Own instance: by minutes two tools of 100 hold 60 + 60 + 40 + 40, and so they do by the cut.
  it('packs cuts as no machine would that takes the first tool with enough', async () => {
    const cuts = [cut(40), cut(40), cut(60), cut(60)];
    expect(await fewestToCover({ ...whole, cuts })).toBe(2);
  });

  it('knows that three cuts of more than half a life need three tools, whatever their minutes add up to', async () => {
    const cuts = [cut(51), cut(51), cut(51)];
    expect(leastByMinutes({ ...whole, cuts })).toBe(2);
    expect(await fewestToCover({ ...whole, cuts })).toBe(3);
  });

  it('lets the day use up what the night left in a tool, not the other way round', async () => {
    const held = [{ left: 100, dressedBefore: [] }];
    const shared = { ...whole, whole: false, reserve: 20, held };
    expect(await fewestToCover({ ...shared, cuts: [cut(80, true), cut(20)] })).toBe(0);
    expect(await fewestToCover({ ...shared, cuts: [cut(20), cut(80, true)] })).toBe(1);
  });

  it('gives up a queue with more ways to load a tool than can be written down', async () => {
    const cuts = Array.from({ length: 40 }, (_, i) => cut(3 + (i % 5)));
    expect(wholeProgram({ ...whole, cuts })).toBeNull();
    expect(await fewestToCover({ ...whole, cuts })).toBeNull();
    expect(
      sharedProgram({ ...whole, whole: false, reserve: 1, cuts: cuts.map(({ minutes }) => cut(minutes, true)) }),
    ).toBeNull();
  });
});
