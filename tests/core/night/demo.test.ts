import { describe, expect, it } from 'vitest';
import { type KindLedger, type Shortage, toolLedger } from '../../../core/night';
import { demoShop } from '../../../core/shop';
import { planWith } from './tool-shop';

// What the demo shows of tools whatever plan is made of it: here only the runs that show it, each as early as can be.
describe('the demo shop', () => {
  const shop = demoShop('2026-11-30');
  const run = (id: string, machine: string, start: number, minutes: number) => ({
    run: id,
    machine,
    start,
    end: start + minutes,
  });
  const plan = planWith(shop, 13 * 60, [
    run('J-118/10/1', 'M1', 730, 100),
    run('J-118/10/2', 'M1', 830, 100),
    run('J-108/10/1', 'MG1', 780, 240),
    ...[1, 2, 3, 4, 5].map((number) => run(`J-106/20/${number}`, 'MG1', number * 1440 + 480, 105)),
  ]);
  const ledger = toolLedger(shop, plan);
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
