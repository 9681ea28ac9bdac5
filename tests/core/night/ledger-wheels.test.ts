import { describe, expect, it } from 'vitest';
import { type KindLedger, toolLedger } from '../../../core/night';
import { NOW, type ToolShop, toolShop } from './tool-shop';

type Dressing = NonNullable<ToolShop['tools'][number]['dressing']>;

const wheel = (dressing: Dressing, life = 100_000) => ({ id: 'W', kind: 'wheel' as const, life, dressing });
const grinding = (minutes: readonly number[]) =>
  minutes.map((one, i) => ({ start: NOW + 300 * i, cut: Math.max(1, one), uses: { W: one } }));
const ledgerOf = (given: Omit<ToolShop, 'always'>): KindLedger => {
  const { shop, plan } = toolShop({ ...given, always: true });
  return toolLedger(shop, plan).kinds[0]!;
};
const dress = (start: number, sister = 0) => ({
  person: 'Ada',
  machine: 'M1',
  start,
  end: start + 20,
  acts: [{ tool: 'W', sister, act: 'dress' as const }],
});

describe('a wheel dressed by the machine', () => {
  it.each([
    [60, 0],
    [61, 1],
    [120, 1],
    [121, 2],
  ])('that grinds %i minutes is dressed every 60, when it is to grind on: %i times', (minutes, byMachine) => {
    const tools = [wheel({ every: 60, minutes: 4, usesMm: 0.03, leftMm: 22 })];
    const ledger = ledgerOf({ tools, magazines: { M1: { W: [1000] } }, cuts: grinding([minutes - 30, 30]) });
    const usedMm = Math.round(byMachine * 30) / 1000;
    expect(ledger.wheels).toEqual([{ sister: 0, byMachine, byHand: 0, usedMm, leftMm: 22 - usedMm }]);
  });

  it('tells no radius where dressing uses none', () => {
    const tools = [wheel({ every: 60, minutes: 4 })];
    const ledger = ledgerOf({ tools, magazines: { M1: { W: [1000] } }, cuts: grinding([100]) });
    expect(ledger.wheels).toEqual([{ sister: 0, byMachine: 1, byHand: 0, usedMm: 0, leftMm: null }]);
  });

  // Own instance, by floor arithmetic, the wear between dressings left out: dressed after 20 parts of a minute each, by
  // 0.02 mm of 30 mm, 47 parts bring 2 dressings, and 1,500 dressings are 30,000 parts. Here the wheel in use is freshly
  // dressed, so after its last dressing there is one interval more than that count has.
  it('lasts as many intervals as its radius gives dressings, and one more', () => {
    const tools = [wheel({ every: 20, minutes: 1, usesMm: 0.02, leftMm: 30 })];
    const magazines = { M1: { W: [50_000] } };
    const shift = ledgerOf({ tools, magazines, cuts: grinding([47]) });
    expect(shift.wheels[0]).toMatchObject({ byMachine: 2, usedMm: 0.04 });
    expect(shift.left.day).toBe(30_000 + 20);
    expect(ledgerOf({ tools, magazines, cuts: grinding([30_000]) }).wheels[0]).toMatchObject({ byMachine: 1499 });
    const whole = ledgerOf({ tools, magazines, cuts: grinding([30_020]) });
    expect(whole.wheels[0]).toMatchObject({ byMachine: 1500, usedMm: 30, leftMm: 0 });
    expect(whole.shortages).toEqual([]);
    expect(ledgerOf({ tools, magazines, cuts: grinding([30_021]) }).shortages).toMatchObject([{ missing: 1 }]);
  });
});

describe('a wheel dressed by hand', () => {
  const tools = [wheel({ every: 100, minutes: 20, by: 'hand', usesMm: 0.5, leftMm: 10 })];
  const magazines = { M1: { W: [1000] } };

  it('grinds one interval to the minute', () => {
    expect(ledgerOf({ tools, magazines, cuts: grinding([60, 40]) }).shortages).toEqual([]);
    const short = ledgerOf({ tools, magazines, cuts: grinding([60, 41]) });
    expect(short.shortages).toMatchObject([{ run: 'B/10/1', minute: NOW + 300, missing: 1 }]);
    expect(short.spent).toEqual([{ sister: 0, why: 'blunt', run: 'B/10/1', minute: NOW + 300 }]);
  });

  it('grinds on once dressed, and is short where nobody does it', () => {
    const ledger = ledgerOf({ tools, magazines, cuts: grinding([60, 41]), care: [dress(NOW + 200)] });
    expect(ledger.shortages).toEqual([]);
    expect(ledger.wheels).toEqual([{ sister: 0, byMachine: 0, byHand: 1, usedMm: 0.5, leftMm: 9.5 }]);
    expect(ledger.withoutCare).toMatchObject({ run: 'B/10/1' });
  });

  it('counts its interval for itself, and gives a cut whole or not at all', () => {
    const two = { M1: { W: [1000, 1000] } };
    expect(ledgerOf({ tools, magazines: two, cuts: grinding([60, 60, 40, 40]) }).shortages).toEqual([]);
    expect(ledgerOf({ tools, magazines: two, cuts: grinding([60, 60, 41]) }).shortages).toMatchObject([
      { run: 'C/10/1', missing: 0 },
    ]);
  });

  it('is not made sharp by the dressing of another', () => {
    const two = { M1: { W: [1000, 10] } };
    const other = ledgerOf({ tools, magazines: two, cuts: grinding([60, 60]), care: [dress(NOW + 200, 1)] });
    expect(other.shortages).toMatchObject([{ run: 'B/10/1' }]);
  });

  it('is fresh when replaced, of a radius nobody has told', () => {
    const replaced = { ...dress(NOW + 200), acts: [{ tool: 'W', sister: 0, act: 'replace' as const }] };
    const ledger = ledgerOf({ tools, magazines, cuts: grinding([60, 100]), care: [replaced] });
    expect(ledger.shortages).toEqual([]);
    expect(ledger.wheels).toMatchObject([{ byHand: 0, leftMm: null }]);
  });
});
