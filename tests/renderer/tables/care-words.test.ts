import { describe, expect, it } from 'vitest';
import { type Operation, type ShopInput, shopSchema } from '../../../core/shop';
import { percentText, plannedText } from '../../../renderer/tables/jobs/care-words';
import { SHOP } from './fake-services';

type OperationInput = NonNullable<ShopInput['jobs']>[number]['route'][number];

function operationWith(change: Partial<OperationInput>): Operation {
  const [job] = SHOP.jobs!;
  const shop = shopSchema.parse({ ...SHOP, jobs: [{ ...job!, route: [{ ...job!.route[0]!, ...change }] }] });
  return shop.jobs[0]!.route[0]!;
}

describe('the planned length', () => {
  const checks = [{ chance: 0.3, repeat: 14, most: 2 }];

  // By hand: no repeat in 70 % of runs, one at most in 91 %; 0.3^3 = 2.7 % are set aside.
  it('is the cycle and the repeats that hold for the share asked for, with the share they really hold for', () => {
    const operation = operationWith({ machines: [{ machine: 'M1', cycle: 140 }], checks });
    expect(plannedText(operation, 0.8)).toBe(
      'planned 154 min: 140 + 14 for repeats, holds for 91 % of runs; sets 2.7 % of pallets aside',
    );
    expect(plannedText(operation, 0.5)).toContain('planned 140 min: no minutes for repeats, holds for 70 % of runs');
  });

  it('is told for each machine that can do it', () => {
    const machines = [
      { machine: 'M1', cycle: 140 },
      { machine: 'M2', cycle: 130 },
    ];
    expect(plannedText(operationWith({ machines, checks }), 0.8)).toContain(
      'planned 154 min on M1, 144 min on M2: 14 of them for repeats',
    );
  });
});

it('never rounds a share up to all or down to none', () => {
  expect([0, 0.0004, 0.029, 0.9196, 0.9999, 1].map(percentText)).toEqual([
    '0 %',
    'under 0.1 %',
    '2.9 %',
    '91.9 %',
    'over 99.9 %',
    '100 %',
  ]);
});
