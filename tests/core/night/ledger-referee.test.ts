import fc from 'fast-check';
import { expect, it } from 'vitest';
import { toolLedger } from '../../../core/night';
import { referee } from '../../../core/referee';
import type { ToolCare } from '../../../core/shop';
import { type Cut, EVENING, toolShop } from './tool-shop';

const minutes = (min: number, max: number) => fc.integer({ min, max });

/** One of each: tools that share a cut, a finish tool, a wheel dressed by hand, one dressed by the machine. */
const TOOLS = [
  { id: 'EM10', life: 60 },
  { id: 'BN06', life: 60, finish: true },
  { id: 'CB91', kind: 'wheel' as const, life: 200, dressing: { every: 45, minutes: 5, by: 'hand' as const } },
  { id: 'WA46', kind: 'wheel' as const, life: 90, dressing: { every: 20, minutes: 5, usesMm: 0.5, leftMm: 1.2 } },
];
const kinds = fc.constantFrom(...TOOLS.map((tool) => tool.id));

const step = fc.oneof(
  {
    weight: 3,
    arbitrary: fc.record({ uses: fc.dictionary(kinds, minutes(1, 30), { minKeys: 1 }), check: fc.boolean() }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      acts: fc.array(
        fc.record({ tool: kinds, sister: minutes(0, 1), act: fc.constantFrom('replace' as const, 'dress' as const) }),
        { minLength: 1, maxLength: 3 },
      ),
    }),
  },
);

it('finds the tool ledger and the referee of one mind about which runs are short, in shops of every kind', () => {
  const outcomes = { short: 0, covered: 0 };
  fc.assert(
    fc.property(
      fc.dictionary(kinds, fc.array(minutes(10, 90), { maxLength: 3 }), { minKeys: 3 }),
      fc.array(step, { minLength: 1, maxLength: 6 }),
      minutes(0, 600),
      minutes(3, 10),
      (magazine, steps, before, tenths) => {
        const cuts: Cut[] = [];
        const care: ToolCare[] = [];
        let start = EVENING - before;
        for (const one of steps) {
          if ('acts' in one) {
            const acts = one.acts.filter(({ tool, act }) => act === 'replace' || tool === 'CB91');
            if (acts.length > 0) care.push({ person: 'Ada', machine: 'M1', start, end: start + 20, acts });
          } else {
            const check = one.check ? { after: 20, start: start + 30, minutes: 5 } : undefined;
            cuts.push({ start, cut: 50, uses: one.uses, ...(check === undefined ? {} : { check }) });
          }
          start += 90;
        }
        const { shop, plan } = toolShop({
          tools: TOOLS,
          magazines: { M1: magazine },
          cuts,
          care,
          nightFraction: tenths / 10,
        });
        const ours = toolLedger(shop, plan).kinds.flatMap((kind) =>
          kind.shortages.map((short) => `${short.run} ${short.tool}`),
        );
        const theirs = referee(shop, plan).breaches.filter((breach) => breach.code === 'tool-short');
        expect([...ours].sort()).toEqual(theirs.map(({ runs, say }) => `${runs[0]} ${toolIn(say)}`).sort());
        if (ours.length > 0) outcomes.short++;
        else outcomes.covered++;
      },
    ),
    { seed: 53, numRuns: 400 },
  );
  expect(Math.min(outcomes.short, outcomes.covered)).toBeGreaterThan(50);
});

/** The kind a referee's sentence is about. */
function toolIn(say: string): string {
  return TOOLS.find(({ id }) => say.includes(` of ${id} `))?.id ?? say;
}
