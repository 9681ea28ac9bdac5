import { describe, expect, it } from 'vitest';
import type { ShopInput } from '../../../core/shop';
import { jobOf, planOf } from '../measure/fixture';
import { gapsAt, op, shopWith } from './gaps-fixture';

type Proof = NonNullable<NonNullable<ShopInput['jobs']>[number]['route'][number]['proof']>;

/** Loaded at 13:30 with nobody there from 14:00 on, and begun when Anna is back. */
function waitOf(proof: Proof, revision = 'A') {
  const shop = shopWith({ jobs: [jobOf('A', [op('10', 'M1', 300, { proof, revision })])] });
  const plan = planOf([
    {
      run: 'A/10/1',
      machine: 'M1',
      pallet: 'P1',
      load: ['Anna', '13:30', '13:50'],
      cut: ['1 06:00', '1 11:00'],
      unload: ['Anna', '1 11:00', '1 11:10'],
    },
  ]);
  return gapsAt(shop, plan, 'M1', '20:00', '21:00').map(([, , , say]) => say);
}

describe('a loaded run that waits for the morning', () => {
  it('says how many good runs it still needs', () => {
    expect(waitOf({ goodRuns: 2 })).toEqual([
      'Waits for a hand until Tue 06:00: A op 10 is loaded and has 2 of the 3 good runs it needs before it runs alone.',
    ]);
  });

  it('says for how long it may run alone', () => {
    expect(waitOf({ goodRuns: 3, longestAlone: 100 })[0]).toContain('may run alone for 3 h 20 min and would take 5 h');
  });

  it('says that it must be proven again', () => {
    expect(waitOf({ goodRuns: 9, longestAlone: 400, revision: 'A' }, 'B')[0]).toContain(
      'must be proven again with this revision and these tools',
    );
  });

  it('says when it is to start where it has earned to run alone', () => {
    expect(waitOf({ goodRuns: 9, longestAlone: 400 })[0]).toContain('is loaded and is to start at Tue 06:00');
  });
});
