import fc from 'fast-check';
import type { CoverCase, CoverTool } from '../../../core/night/presets-case';

interface Used {
  readonly left: number;
  readonly ground: number;
  readonly dressings: number;
}

/** Tries every way to give every cut to the tools there are and `fresh` new ones, in whole minutes where they share it. */
function canCover(cover: CoverCase, fresh: number): boolean {
  const tools: CoverTool[] = [
    ...cover.held,
    ...Array.from({ length: fresh }, () => ({ left: cover.life, dressedBefore: [] })),
  ];
  // What the tools may have come to after each cut; ways that come to the same are followed once.
  let reached: (readonly Used[])[] = [tools.map(({ left }) => ({ left, ground: 0, dressings: 0 }))];
  for (const [cut, { minutes }] of cover.cuts.entries()) {
    const after = new Map<string, readonly Used[]>();
    const give = (tool: number, owed: number, used: readonly Used[]): void => {
      if (owed === 0) after.set(keyOf(cover, used), used);
      const one = tools[tool];
      const before = used[tool];
      if (owed === 0 || one === undefined || before === undefined) return;
      for (let part = cover.whole ? owed : 1; part <= owed; part++) {
        const ground = grind(cover, one, before, cut, part);
        if (ground !== null) give(tool + 1, owed - part, used.with(tool, ground));
      }
      give(tool + 1, owed, used);
    };
    for (const used of reached) give(0, minutes, used);
    reached = [...after.values()];
  }
  return reached.length > 0;
}

/** New tools are all alike. */
function keyOf(cover: CoverCase, used: readonly Used[]): string {
  const words = used.map((one) => JSON.stringify(one));
  const held = cover.held.length;
  return [...words.slice(0, held), ...words.slice(held).sort()].join();
}

function grind(cover: CoverCase, tool: CoverTool, used: Used, cut: number, minutes: number): Used | null {
  const dressings = tool.dressedBefore.filter((before) => before <= cut).length;
  const ground = (dressings > used.dressings ? 0 : used.ground) + minutes;
  const left = used.left - minutes;
  const kept = cover.cuts[cut]?.alone === true ? cover.reserve : 0;
  return left < kept || (cover.every !== null && ground > cover.every) ? null : { left, ground, dressings };
}

/** The fewest new tools, by trying everything. */
export function fewestByCounting(cover: CoverCase): number {
  let fresh = 0;
  while (!canCover(cover, fresh)) fresh++;
  return fresh;
}

const cutsOf = (most: number, minutes: number) =>
  fc.array(fc.record({ minutes: fc.integer({ min: 1, max: minutes }), alone: fc.boolean() }), {
    minLength: 1,
    maxLength: most,
  });

/** Small enough to try everything, each cut short enough for a new tool. */
export const wholeCases: fc.Arbitrary<CoverCase> = fc
  .record({
    reserve: fc.integer({ min: 0, max: 3 }),
    every: fc.constantFrom(null, 7),
    cuts: cutsOf(6, 7),
    held: fc.array(
      fc.record({
        left: fc.integer({ min: 0, max: 12 }),
        dressedBefore: fc.uniqueArray(fc.integer({ min: 0, max: 5 }), { maxLength: 2 }),
      }),
      { maxLength: 2 },
    ),
  })
  .map((some) => ({ ...some, whole: true, life: 10 }));

/** The same for cuts that tools may share. */
export const sharedCases: fc.Arbitrary<CoverCase> = fc
  .record({
    reserve: fc.integer({ min: 0, max: 3 }),
    cuts: cutsOf(4, 6),
    held: fc.array(fc.record({ left: fc.integer({ min: 0, max: 7 }), dressedBefore: fc.constant([]) }), {
      maxLength: 2,
    }),
  })
  .map((some) => ({ ...some, whole: false, life: 5, every: null }));
