import { describe, expect, it } from 'vitest';
import { Counterfactual, RELAXATIONS, type Relaxation } from '../../../core/engine';
import { problemOf } from '../../../core/problem';
import type { Plan, PlannedRun } from '../../../core/shop';
import { planned } from './planned';
import { numbers, randomShop } from './random-shop';
import { breachesRelaxed } from './relaxed-shop';

const SHOPS = 100;

describe('a run asked where it could be instead', () => {
  it('is put where the referee passes it in the shop so relaxed, and no other run moves: 100 random shops', async () => {
    const asked = new Map<string, number>();
    for (let seed = 1; seed <= SHOPS; seed++) {
      const { shop, at } = randomShop(seed);
      const plan = await planned(shop, at, 60, { seed, allocate: false, clock: () => 0 });
      const facts = new Counterfactual(problemOf(shop, at), plan);
      const pick = numbers(seed);
      for (const run of plan.runs) {
        if (facts.isFixed(run.run)) continue;
        const some = () => RELAXATIONS[pick(RELAXATIONS.length)]!;
        const pairs = [
          [some(), some()],
          [some(), some()],
        ];
        for (const relaxed of [[], ...RELAXATIONS.map((one) => [one]), ...pairs] as Relaxation[][]) {
          const found = facts.earliest(run.run, run.machine, { start: plan.now, end: run.start }, relaxed);
          if (found === null) continue;
          const label = `shop ${seed}, ${run.run} without ${relaxed.join(' and ')}`;
          expect(found.start, label).toBeLessThan(run.start);
          const moved = facts.planWith(found, relaxed);
          expect(others(moved, run), label).toEqual(others(plan, run));
          expect(breachesRelaxed(shop, moved, found, relaxed), label).toEqual([]);
          for (const one of relaxed) asked.set(one, (asked.get(one) ?? 0) + 1);
        }
      }
    }
    expect([...asked.keys()].sort()).toEqual([...RELAXATIONS].sort());
  }, 120_000);
});

function others(plan: Plan, run: PlannedRun): Plan['runs'] {
  return plan.runs.filter((one) => one.run !== run.run);
}
