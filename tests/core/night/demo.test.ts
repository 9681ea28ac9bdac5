import { beforeAll, describe, expect, it } from 'vitest';
import { planShop } from '../../../core/engine';
import { type KindLedger, type Shortage, type ToolLedger, toolLedger } from '../../../core/night';
import { demoShop } from '../../../core/shop';

// What must be told from the first day of using the program, whatever plan is made of the demo shop.
describe('the demo shop', () => {
  const shop = demoShop('2026-11-30');
  let ledger: ToolLedger;
  beforeAll(async () => {
    const at = shop.planFrom ?? '';
    ledger = toolLedger(
      shop,
      await planShop(shop, { at, seconds: 60, steps: 1, seed: 1, allocate: false, clock: () => performance.now() }),
    );
  });
  const kind = (machine: string, tool: string): KindLedger => {
    const found = ledger.kinds.find((one) => one.machine === machine && one.tool === tool);
    if (found === undefined) throw new Error(`no ${tool} at ${machine}`);
    return found;
  };
  const firstAt = (machine: string, tool: string): Shortage | null => kind(machine, tool).withoutCare;

  it('has pallets loaded on two machines that cannot be cut before a tool is replaced', () => {
    expect(firstAt('M1', 'BN03')).toMatchObject({ run: 'J-118/10/2' });
    expect(firstAt('MG1', 'EM16')).toMatchObject({ run: 'J-108/10/1', needed: 110, missing: 10 });
  });

  it('has a finish tool of which two halves are as long as a cut, and not one of them', () => {
    expect(kind('M1', 'BN03').left.sisters).toEqual([75, 35]);
    expect(firstAt('M1', 'BN03')).toMatchObject({ needed: 55, missing: 0 });
  });

  it('has a wheel to be dressed by hand in the course of the week, and no second one of its kind', () => {
    expect(firstAt('MG1', 'CB91')?.run).toMatch(/^J-106\/20\//);
    expect(ledger.kinds.filter((one) => one.tool === 'CB91').map((one) => one.left.sisters.length)).toEqual([1]);
  });

  it('names two causes that stop several machines at once', () => {
    expect(shop.night.shared.map((cause) => cause.machines.length)).toEqual([3, 4]);
  });
});
