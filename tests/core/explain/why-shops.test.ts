import { describe, expect, it } from 'vitest';
import { Counterfactual, type Relaxation } from '../../../core/engine';
import { reasonsOf, whyRun } from '../../../core/explain';
import { problemOf } from '../../../core/problem';
import { referee } from '../../../core/referee';
import type { Attendance, PlannedRun } from '../../../core/shop';
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

/** Minutes by which a run is tried earlier. */
const SHIFTS = [1, 2, 5, 10, 20, 40, 60, 120];

/** The run so much earlier, with its load and its unload as they are or as much earlier too. */
function shifted(run: PlannedRun, minutes: number): PlannedRun[] {
  const early = <T extends Attendance | null>(hand: T): T =>
    hand === null ? hand : { ...hand, start: hand.start - minutes, end: hand.end - minutes };
  const cut = {
    ...run,
    start: run.start - minutes,
    end: run.end - minutes,
    check: early(run.check),
    work: early(run.work),
  };
  return [cut, { ...cut, load: early(run.load) }, { ...cut, load: early(run.load), unload: early(run.unload) }];
}

it('finds no run that the referee would pass earlier, moved alone, where it says that it cannot start earlier: 25 random shops', async () => {
  let tried = 0;
  for (let seed = 1; seed <= 25; seed++) {
    const { shop, at } = randomShop(seed);
    const plan = await planned(shop, at, 60, { seed, allocate: false, clock: () => 0 });
    const reasons = reasonsOf(shop, plan);
    const facts = new Counterfactual(problemOf(shop, at), plan);
    for (const run of plan.runs) {
      if (facts.isFixed(run.run) || reasons.run(run.run).notEarlier === null) continue;
      for (const moved of SHIFTS.flatMap((minutes) => shifted(run, minutes))) {
        const runs = plan.runs.map((one) => (one === run ? moved : one));
        const breaches = referee(shop, { ...plan, runs }).breaches.filter(({ code }) => code !== 'cost');
        expect(breaches, `shop ${seed}, ${run.run} at ${moved.start}`).not.toEqual([]);
        tried++;
      }
    }
  }
  expect(tried).toBeGreaterThan(1500);
}, 60_000);
