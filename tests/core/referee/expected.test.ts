import { describe, expect, it } from 'vitest';
import { handless, jobOf, planned, planOf, shopOf, t } from './fixture';

interface Odds {
  readonly block: number;
  readonly loss: number;
}

/** One-hour runs on M1 from 22:00 on, with nobody there. */
function nightOf(odds: readonly Odds[]) {
  const jobs = odds.map((each, i) => jobOf(`J${i}`, [handless({ odds: each })]));
  const shop = shopOf(jobs);
  const runs = odds.map((_, i) => planned(`J${i}/10/1`, 'M1', t('22:00') + 60 * i, t('23:00') + 60 * i));
  return planOf(shop, runs).cost;
}

/** Every way the night can go, with its chance: a run's hour counts if it and all before it go well. */
function byEnumeration(odds: readonly Odds[]): number {
  const [first, ...rest] = odds;
  if (first === undefined) return 0;
  const goesOn = (1 - first.block) * (1 - first.loss) * (1 + byEnumeration(rest));
  const lost = (1 - first.block) * first.loss * byEnumeration(rest);
  return goesOn + lost;
}

describe('the hours to expect tonight', () => {
  it('are those loaded where nothing has odds', () => {
    const cost = nightOf([
      { block: 0, loss: 0 },
      { block: 0, loss: 0 },
    ]);
    expect([cost.loaded, cost.tonight]).toEqual([2, 2]);
  });

  it('leave out what a blocked machine no longer cuts, and what is lost alone', () => {
    // Worked by hand: 0.9 · 0.8 + 0.9 · 0.5 · 1.
    const cost = nightOf([
      { block: 0.1, loss: 0.2 },
      { block: 0.5, loss: 0 },
    ]);
    expect(cost.loaded).toBe(2);
    expect(cost.tonight).toBeCloseTo(0.72 + 0.45, 12);
  });

  it('are the mean over all ways the night can go', () => {
    const odds = [
      { block: 0.05, loss: 0.02 },
      { block: 0.2, loss: 0.1 },
      { block: 0.01, loss: 0.3 },
      { block: 0.4, loss: 0 },
    ];
    expect(nightOf(odds).tonight).toBeCloseTo(byEnumeration(odds), 12);
  });

  it('begin anew on each machine and in each night', () => {
    const risky = { block: 0.5, loss: 0 };
    const shop = shopOf(['A', 'B', 'C'].map((id) => jobOf(id, [handless({ odds: risky })])));
    const { cost } = planOf(shop, [
      planned('A/10/1', 'M1', t('22:00'), t('23:00')),
      planned('B/10/1', 'M2', t('22:00'), t('23:00')),
      planned('C/10/1', 'M1', t('22:00', 1), t('23:00', 1)),
    ]);
    expect([cost.tonight, cost.laterNights]).toEqual([1, 0.5]);
  });
});
