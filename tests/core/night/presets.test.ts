import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { toolLedger, toolsToPreset } from '../../../core/night';
import type { Shop } from '../../../core/shop';
import { SOLVERS } from '../linear/programs';
import { EVENING, MORNING, NOW, type ToolShop, toolShop } from './tool-shop';

const EM10 = { id: 'EM10', life: 100 };
const BN06 = { id: 'BN06', life: 100, finish: true };
const presets = (given: ToolShop) => {
  const { shop, plan } = toolShop(given);
  return toolsToPreset(shop, plan);
};
const inTurn = (tool: string, minutes: readonly number[], from = NOW) =>
  minutes.map((one, i) => ({ start: from + 70 * i, cut: 60, uses: { [tool]: one } }));

describe('the fewest tools to preset', () => {
  it('are none where the queue holds', async () => {
    const cuts = inTurn('EM10', [50, 50]);
    expect(await presets({ tools: [EM10], magazines: { M1: { EM10: [100] } }, cuts })).toEqual({
      until: MORNING,
      total: 0,
      kinds: [],
      never: [],
    });
  });

  it('are counted by kind and machine, with the run before which they must be in the magazine', async () => {
    const cuts = [
      ...inTurn('EM10', [50, 60, 60]),
      ...inTurn('BN06', [40, 40]).map((cut) => ({ ...cut, machine: 'M2' })),
    ];
    const magazines = { M1: { EM10: [60] }, M2: { BN06: [39, 39] } };
    const { total, kinds } = await presets({ tools: [EM10, BN06], magazines, cuts });
    expect(total).toBe(3);
    expect(kinds).toMatchObject([
      {
        machine: 'M1',
        tool: 'EM10',
        fewest: 2,
        inOrder: 2,
        proved: true,
        shortage: { run: 'B/10/1', start: NOW + 70 },
      },
      { machine: 'M2', tool: 'BN06', fewest: 1, inOrder: 1, proved: true, shortage: { run: 'D/10/1', start: NOW } },
    ]);
  });

  it('may be fewer with a choice of tool than in the order of the magazine', async () => {
    const { total, kinds } = await presets({
      tools: [BN06],
      magazines: { M1: { BN06: [] } },
      cuts: inTurn('BN06', [40, 40, 60, 60]),
    });
    expect(total).toBe(2);
    expect(kinds).toMatchObject([{ fewest: 2, inOrder: 3, proved: true }]);
  });

  it('are those for the runs that begin before the night is over, and for all where there is no night', async () => {
    const given = {
      tools: [EM10],
      magazines: { M1: { EM10: [0] } },
      cuts: [...inTurn('EM10', [60], MORNING - 1), ...inTurn('EM10', [90, 90, 90], MORNING + 59)],
    };
    expect(await presets(given)).toMatchObject({ until: MORNING, total: 1 });
    expect(await presets({ ...given, always: true })).toMatchObject({ until: null, total: 4 });
  });

  it('do without the planned replacements, but not without the planned dressings', async () => {
    const W = { id: 'W', kind: 'wheel' as const, life: 1000, dressing: { every: 60, minutes: 9, by: 'hand' as const } };
    const care = (act: 'replace' | 'dress') => ({
      person: 'Ada',
      machine: 'M1',
      start: NOW + 61,
      end: NOW + 70,
      acts: [{ tool: 'W', sister: 0, act }],
    });
    const given = { tools: [W], magazines: { M1: { W: [1000] } }, cuts: inTurn('W', [60, 60]) };
    expect(await presets({ ...given, care: [care('replace')] })).toMatchObject({ total: 1 });
    expect(await presets({ ...given, care: [care('dress')] })).toMatchObject({ total: 0 });
  });

  it('are not to be had for a cut longer than a new tool lasts, which is said of the run', async () => {
    const given = { tools: [BN06], magazines: { M1: { BN06: [] } }, cuts: inTurn('BN06', [100], EVENING) };
    expect(await presets(given)).toMatchObject({ total: 0, kinds: [], never: [{ run: 'A/10/1', minute: EVENING }] });
    expect(await presets({ ...given, always: true })).toMatchObject({ total: 1, never: [] });
  });

  it('are enough in the order of the magazine, and one fewer is not', async () => {
    const kinds = fc.record({
      finish: fc.boolean(),
      held: fc.array(fc.integer({ min: 0, max: 100 }), { maxLength: 3 }),
      uses: fc.array(fc.integer({ min: 1, max: 80 }), { minLength: 1, maxLength: 8 }),
      evening: fc.integer({ min: 0, max: 7 }),
    });
    await fc.assert(
      fc.asyncProperty(kinds, async ({ finish, held, uses, evening }) => {
        const { shop, plan } = toolShop({
          tools: [{ ...EM10, finish }],
          magazines: { M1: { EM10: held } },
          cuts: inTurn('EM10', uses, EVENING - 70 * evening),
        });
        const { kinds, total } = await toolsToPreset(shop, plan);
        const [preset] = kinds;
        expect(preset === undefined).toBe(toolLedger(shop, plan).kinds[0]!.shortages.length === 0);
        if (preset === undefined) return;
        const shortWith = (fresh: number): number => toolLedger(withNew(shop, fresh), plan).kinds[0]!.shortages.length;
        expect(shortWith(preset.inOrder)).toBe(0);
        expect(shortWith(preset.inOrder - 1)).toBeGreaterThan(0);
        expect(preset.fewest).toBeLessThanOrEqual(preset.inOrder);
        for (const solver of SOLVERS) expect((await toolsToPreset(shop, plan, solver)).total).toBe(total);
      }),
      { seed: 47, numRuns: 60 },
    );
  });
});

function withNew(shop: Shop, fresh: number): Shop {
  const machines = shop.machines.map((machine) => ({
    ...machine,
    magazine: machine.magazine.map(({ tool, left }) => ({
      tool,
      left: [...left, ...new Array<number>(fresh).fill(100)],
    })),
  }));
  return { ...shop, machines };
}
