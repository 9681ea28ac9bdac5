import { describe, expect, it } from 'vitest';
import { Counterfactual, type Relaxation } from '../../../core/engine';
import { whyRun } from '../../../core/explain';
import { problemOf } from '../../../core/problem';
import { planned } from '../engine/planned';
import { randomShop } from '../engine/random-shop';

describe('why a run is where it is', () => {
  it('says it cannot start earlier just where none of its own room is earlier, and only gains that are there: 40 random shops', async () => {
    let bound = 0;
    for (let seed = 1; seed <= 40; seed++) {
      const { shop, at } = randomShop(seed);
      const plan = await planned(shop, at, 60, { seed, allocate: false, clock: () => 0 });
      const facts = new Counterfactual(problemOf(shop, at), plan);
      for (const { run, machine, start } of plan.runs) {
        if (facts.isFixed(run)) continue;
        const label = `shop ${seed}, ${run}`;
        const { notEarlier, frees, binding } = whyRun(shop, plan, run);
        const within = { start: plan.now, end: start };
        if (notEarlier !== null) expect(facts.earliest(run, machine, within), label).toBeNull();
        expect(binding.includes('choice'), label).toBe(notEarlier === null);
        expect(
          frees.map(({ gain }) => gain),
          label,
        ).toEqual(frees.map(({ gain }) => gain).sort((a, b) => b - a));
        // One thing alone frees it by as much as is said.
        if (notEarlier?.endsWith('start earlier.') === true) {
          const gains = binding.map(
            (kind) => start - facts.earliest(run, machine, within, [kind as Relaxation])!.start,
          );
          expect(gains, label).toEqual(frees.map(({ gain }) => gain));
          bound++;
        }
      }
    }
    expect(bound).toBeGreaterThan(100);
  }, 60_000);
});
