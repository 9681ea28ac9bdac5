import { expect, it, onTestFinished } from 'vitest';
import { planShop } from '../../../core/engine';
import { reportOn } from '../../../core/explain';
import { createTrials } from '../../../main/solver';
import { smallShop } from '../../support/small-shop';

it('answers only the newest of two changes, and does not search on for the other', async () => {
  const shop = smallShop();
  const at = '2026-11-25T08:00';
  let now = 0;
  const plan = await planShop(shop, { at, seconds: 60, steps: 5, seed: 1, clock: () => now++ });
  const before = { shop, plan, report: reportOn(shop, plan) };
  const trials = createTrials(new URL('../../../main/solver/trial-worker.ts', import.meta.url));
  onTestFinished(() => trials.close());
  const job = { shop, at, seed: 1, before, released: null, hasNewWork: false, held: ['A/10/1'] };
  const [older, newer] = await Promise.all([trials.try({ ...job, seconds: 3000 }), trials.try({ ...job, seconds: 0 })]);
  expect(older).toBeNull();
  expect(newer?.trial.placed.map(({ run }) => run)).toEqual(['A/10/1']);
});
