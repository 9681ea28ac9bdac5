import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readPlanText, readShopText, writePlanText, writeShopText } from '../../../core/exchange';
import { demoShop, emptyShop, type Plan, type Shop } from '../../../core/shop';

function shopOf(text: string): Shop {
  const read = readShopText(text);
  if (!read.ok) throw new Error(read.faults[0]?.say);
  return read.value;
}

function sayOf(text: string): string {
  const read = readShopText(text);
  return read.ok ? 'taken' : (read.faults[0]?.say ?? '');
}

const plan: Plan = {
  format: 'nightload-plan',
  version: 1,
  shop: 'Demo shop',
  clock: { zone: 'Europe/Berlin', origin: 0 },
  now: 780,
  horizon: 20160,
  runs: [
    {
      run: 'J-1/10/1',
      machine: 'M1',
      pallet: 'P-01',
      load: { person: 'Jana', start: 790, end: 802 },
      start: 802,
      end: 900,
      check: null,
      work: null,
      unload: null,
    },
  ],
  care: [],
  left: [{ run: 'J-1/10/2', why: 'no room' }],
  conflicts: [],
  cost: {
    lateness: 0,
    loaded: 1.5,
    tonight: 1.5,
    laterNights: 0,
    morning: 0,
    rounds: 1,
    extraHours: 0,
    flow: 0,
    moved: 0,
    finish: 2,
    total: -2.78,
  },
  bound: null,
  search: { seed: 1, steps: 10, seconds: 0.2, ending: 'limit' },
};

describe('a shop file', () => {
  it.each([
    ['the demo shop', demoShop('2026-10-19')],
    ['an empty shop', emptyShop('UTC')],
  ])('of %s comes back the same, to the byte', (_, shop) => {
    const text = writeShopText(shop);
    expect(shopOf(text)).toEqual(shop);
    expect(writeShopText(shopOf(text))).toBe(text);
  });

  it('has the same bytes whatever order its fields came in', () => {
    const shop = demoShop('2026-11-30');
    const turned = Object.fromEntries(Object.entries(shop).reverse()) as Shop;
    expect(writeShopText(turned)).toBe(writeShopText(shop));
  });

  it('is read with a byte order mark and Windows line ends', () => {
    const text = writeShopText(emptyShop('UTC'));
    expect(shopOf(`\uFEFF${text.replaceAll('\n', '\r\n')}`)).toEqual(emptyShop('UTC'));
  });
});

describe('a shop file that cannot be read', () => {
  it.each<[string, string, RegExp]>([
    ['empty', ' \n', /is empty.*Choose another/],
    ['a table of another program', 'Job;Due\n1;2', /line 1, column 1, near "Job;Due.*not JSON.*Correct/],
    ['cut off in a list', '{\n  "jobs": [\n', /ends in the middle, at line \d, column \d+.*cut off.*backup/],
    ['cut off in a text', '{\n  "name": "Dem', /ends in the middle, at line 2, column 15/],
    ['cut off in a number', '{\n  "version": 0.', /ends in the middle.*cut off/],
    ['cut off in a word', '{\n  "overdue": tru', /ends in the middle.*cut off/],
    ['missing a comma', '{\n  "a": 1\n  "b": 2\n}', /line 3, column 3, near "\\"b\\": 2/],
    ['with a comma too many', '{"a": [1, 2,]}', /line 1, column 13, near "\]}"/],
    ['with two values', '{} {}', /line 1, column 4, near "{}"/],
    ['with a text in single quotes', "{'a': 1}", /line 1, column 2/],
  ])('because it is %s names the place', (_, text, say) => {
    expect(sayOf(text)).toMatch(say);
    expect(readShopText(text)).toMatchObject({ ok: false, faults: [{ code: 'unreadable', level: 'error' }] });
  });

  it('is refused wherever it is cut off', () => {
    const text = writeShopText(demoShop('2026-11-30')).trimEnd();
    fc.assert(
      fc.property(fc.integer({ min: 1, max: text.length - 1 }), (length) => {
        expect(sayOf(text.slice(0, length))).toMatch(/line \d+, column \d+/);
      }),
      { seed: 5, numRuns: 60 },
    );
  });

  it('points at or before the place where a character was spoiled', () => {
    const text = writeShopText(emptyShop('UTC'));
    fc.assert(
      fc.property(fc.integer({ min: 0, max: text.length - 2 }), (at) => {
        const place = /line (\d+), column/.exec(sayOf(`${text.slice(0, at)}\u0001${text.slice(at + 1)}`));
        expect(Number(place?.[1])).toBeLessThanOrEqual(text.slice(0, at + 1).split('\n').length + 1);
      }),
      { seed: 6, numRuns: 200 },
    );
  });

  it('is refused without exhausting the stack however deep it is nested', () => {
    expect(sayOf('['.repeat(100_000))).toMatch(/cut off/);
  });
});

describe('a plan file', () => {
  it('comes back the same, to the byte', () => {
    const text = writePlanText(plan);
    expect(readPlanText(text)).toEqual({ ok: true, value: plan });
  });

  it('names the run whose field is wrong', () => {
    const read = readPlanText(writePlanText(plan).replace('"start": 802', '"start": "13:22"'));
    expect(read).toMatchObject({ ok: false, faults: [{ at: ['runs', 0, 'start'] }] });
    expect(!read.ok && read.faults[0]?.say).toMatch(/^Run J-1\/10\/1, start: is the text "13:22"; it must be a/);
  });

  it('is refused where a shop file is given', () => {
    expect(readPlanText(writeShopText(emptyShop('UTC')))).toMatchObject({
      ok: false,
      faults: [{ code: 'other-kind' }],
    });
  });
});
