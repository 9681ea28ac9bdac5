import { describe, expect, it } from 'vitest';
import type { RunSheet, SheetPage } from '../../../core/contract';
import { reportOn, runSheet } from '../../../core/explain';
import { toolLedger } from '../../../core/night';
import type { Plan, Shop, ShopInput } from '../../../core/shop';
import { at, jobOf, personOf, planOf, shopOf } from '../measure/fixture';

// Own instance: Anna from 06:00 to 14:00, Ben from 14:00 to 22:00; M1 with places of its own, M2 and M3 in a cell.
const op = (machine: string, more: object = {}) => ({
  ...{ id: '10', name: 'Mill', machines: [{ machine, cycle: 180 }], fixture: 'F', load: 20, unload: 10 },
  ...{ program: '0410', revision: 'C', ...more },
});
const SHOP: ShopInput = shopOf({
  people: [personOf('Anna', '06:00', '14:00'), { ...personOf('ben', '14:00', '22:00'), name: 'Ben' }],
  cells: [{ id: 'CELL', name: 'Pallet cell', places: 6 }],
  tools: [{ id: 'EM10', life: 200 }],
  machines: [
    { id: 'M1', name: 'Mill 1', kind: 'mill', places: 4, nightFraction: 1, magazine: [{ tool: 'EM10', left: [200] }] },
    { id: 'M2', kind: 'mill', cell: 'CELL' },
    { id: 'M3', kind: 'mill', cell: 'CELL' },
  ],
  pallets: ['P1', 'P2', 'P3', 'P4'].map((id) => ({ id, fixture: 'F' })),
  jobs: [
    jobOf(
      'A',
      [
        op('M1', {
          ...{ tools: [{ tool: 'EM10', minutes: 60 }], measure: 'Bore 12 H7', ifStops: 'skip', perPallet: 2 },
          correction: { text: 'Z 0.02 deeper', why: 'floor was high', at: '2026-11-24' },
        }),
      ],
      { name: 'Insert', quantity: 4, spareBlanks: 2 },
    ),
    jobOf('B', [op('M2', { correction: { text: 'half feed', at: '2026-01-02' } })]),
    jobOf('C', [op('M3', { firstPiece: { after: 60, minutes: 15 } })]),
  ],
  floor: [{ run: 'A/10/1', state: 'running', machine: 'M1', pallet: 'P1', start: '2026-11-30T12:00' }],
});
const PLAN = planOf(
  [
    { run: 'A/10/2', machine: 'M1', pallet: 'P2', load: ['ben', '14:00', '14:20'], cut: ['21:00', '1 00:00'] },
    { run: 'A/10/1', machine: 'M1', pallet: 'P1', cut: ['12:00', '15:00'], unload: ['ben', '15:00', '15:10'] },
    { run: 'B/10/1', machine: 'M2', pallet: 'P3', load: ['ben', '14:25', '14:45'], cut: ['22:00', '1 01:00'] },
    {
      ...{ run: 'C/10/1', machine: 'M3', pallet: 'P4', load: ['Anna', '13:20', '13:40'], cut: ['15:00', '18:15'] },
      ...{ check: ['ben', '16:00', '16:15'], unload: ['Anna', '1 06:05', '1 06:15'] },
    } as const,
  ],
  { now: '13:00' },
);
const CHECKS = [
  { key: 'a', say: 'First piece of C/10/1 checked on M3', at: at('16:15') },
  { key: 'b', say: 'Filter clean', at: null },
];

function sheetOf({ shop = SHOP, plan = PLAN, released = null as string | null } = {}): RunSheet {
  const read = shopOf(shop);
  const report = reportOn(read, plan);
  const release = released === null ? null : { at: released, checked: [] };
  return runSheet({ id: 7, plan, shop: read, report, released: release }, CHECKS);
}

const page = (sheet: RunSheet, title: string): SheetPage => {
  const found = sheet.pages.find((one) => one.title === title);
  if (found === undefined) throw new Error(`no page ${title}`);
  return found;
};
const cared = (shop: Shop): Plan => ({
  ...PLAN,
  care: [
    {
      machine: 'M2',
      person: 'ben',
      start: at('21:30'),
      end: at('21:35'),
      acts: [{ tool: 'EM10', sister: 0, act: 'replace' }],
    },
  ],
  shop: shop.name,
});

describe('the run sheet', () => {
  it('has a page for each machine in use, for each cell, and for the machines that share none', () => {
    expect(sheetOf().pages.map(({ of, title }) => [of, title])).toEqual([
      ['machine', 'M1'],
      ['machine', 'M2'],
      ['machine', 'M3'],
      ['together', 'CELL'],
      ['together', 'Test shop'],
    ]);
    const [first, ...rest] = SHOP.machines ?? [];
    const shop = shopOf({ ...SHOP, machines: [...rest, { ...first!, id: 'M9', inUse: false }, first!] });
    expect(sheetOf({ shop }).pages.map(({ title }) => title)).not.toContain('M9');
  });

  it('has one page for the whole shop, called by its name, where there is no cell', () => {
    const machines = (SHOP.machines ?? []).map((machine) => ({ ...machine, cell: null, places: 4 }));
    const together = sheetOf({ shop: shopOf({ ...SHOP, cells: [], machines }) }).pages.filter(
      (one) => one.of === 'together',
    );
    expect(together.map(({ title, name, rows }) => [title, name, rows.length])).toEqual([['Test shop', '', 4]]);
  });

  it('puts what runs already first, and counts those that wait from 1', () => {
    expect(page(sheetOf(), 'M1').rows.map(({ place, pallet }) => [place, pallet])).toEqual([
      [null, 'P1'],
      [1, 'P2'],
    ]);
    expect(page(sheetOf(), 'CELL').rows.map(({ place, machine, pallet }) => [place, machine, pallet])).toEqual([
      [1, 'M3', 'P4'],
      [2, 'M2', 'P3'],
    ]);
  });

  it('says of a run everything that whoever stands before it needs', () => {
    const [, row] = page(sheetOf(), 'M1').rows;
    expect(row).toMatchObject({
      ...{ job: 'A', jobName: 'Insert', operation: '10', operationName: 'Mill', parts: 2 },
      ...{ program: '0410', revision: 'C', measure: 'Bore 12 H7', ifStops: 'Skip it, next pallet', spareBlanks: 2 },
      correction: '24 Nov: Z 0.02 deeper (floor was high)',
    });
    expect(page(sheetOf(), 'M2').rows[0]).toMatchObject({
      ifStops: 'Call who is on duty',
      correction: '2 Jan: half feed',
      spareBlanks: 0,
    });
  });

  it('names the tool nearest its end after each run as the ledger does, and none where no tool is counted', () => {
    const sheet = sheetOf();
    const left = toolLedger(shopOf(SHOP), PLAN).minutesLeftAfter;
    // 200 less 60 for the run that is cutting and 60 for the next.
    expect(page(sheet, 'M1').rows.map(({ tool }) => tool)).toEqual([
      { id: 'EM10', minutes: 140 },
      { id: 'EM10', minutes: 80 },
    ]);
    expect(left['A/10/2']?.minutes).toBe(80);
    expect(page(sheet, 'M2').rows[0]?.tool).toBeNull();
  });

  it('gives times by the clock, with the day where it is another than that of the sheet', () => {
    expect(page(sheetOf(), 'M1').rows[1]).toMatchObject({
      start: { day: null, time: '21:00' },
      end: { day: 'Tue', time: '00:00' },
    });
  });

  it('marks what runs alone from the minute the last person leaves', () => {
    expect(page(sheetOf(), 'M1').rows.map(({ isAlone }) => isAlone)).toEqual([false, true]);
    const until = {
      ...PLAN,
      runs: PLAN.runs.map((run) => (run.run === 'A/10/2' ? { ...run, end: at('22:00') } : run)),
    };
    expect(page(sheetOf({ plan: until }), 'M1').rows[1]?.isAlone).toBe(false);
  });

  it('says why a machine stands after its last run, and nothing where it cuts to the end', () => {
    expect(page(sheetOf(), 'M1').stands).toMatch(/^From Tue 00:00: (dry|nothing due|waits for a hand) /);
    const long = {
      ...PLAN,
      runs: PLAN.runs.map((run) => (run.run === 'A/10/2' ? { ...run, end: at('1 06:30') } : run)),
    };
    expect(page(sheetOf({ plan: long }), 'M1').stands).toBeNull();
  });
});

describe('the head of the run sheet', () => {
  it('says which night, which plan, and whether people work by it', () => {
    expect(sheetOf()).toMatchObject({ date: 'Mon 30 Nov', plan: 7, standing: 'not released', isReleased: false });
    const released = sheetOf({ released: '2026-11-30T13:40' });
    expect(released).toMatchObject({ standing: 'released Mon 30 Nov 13:40', isReleased: true });
  });

  it('begins with the release and ends with the night', () => {
    expect(sheetOf()).toMatchObject({
      from: { time: '13:00' },
      to: { day: 'Tue', time: '06:00' },
      aloneFrom: { time: '22:00' },
    });
    const released = sheetOf({ released: '2026-11-30T15:00' });
    expect(released.from.time).toBe('15:00');
    // Its run ended that very minute.
    expect(page(released, 'M1').rows.map(({ pallet }) => pallet)).toEqual(['P2']);
    expect(sheetOf({ released: '2026-11-25T08:00' }).from.time).toBe('13:00');
    expect(sheetOf({ released: '2026-12-03T08:00' }).from.time).toBe('13:00');
  });

  it('says who is there until when, in the order in which they go', () => {
    expect(sheetOf().people).toEqual(['Anna until 14:00', 'Ben 14:00 to 22:00']);
    expect(sheetOf({ released: '2026-11-30T14:00' }).people).toEqual(['Ben until 22:00']);
  });

  it('says who comes first in the morning, and when to this machine', () => {
    expect(page(sheetOf(), 'M3').morning).toBe('Tue 06:05 Anna, here from 06:05');
    expect(page(sheetOf(), 'M1').morning).toBe('Tue 06:05 Anna');
    const none = { ...PLAN, runs: PLAN.runs.map((run) => ({ ...run, unload: null })) };
    expect(page(sheetOf({ plan: none }), 'M3').morning).toBeNull();
  });

  it('covers one day where somebody is always there', () => {
    const people = [personOf('Anna', '06:00', '18:00'), personOf('Ben', '18:00', '06:00')];
    const plan = { ...PLAN, runs: [] };
    expect(sheetOf({ shop: shopOf({ ...SHOP, people }), plan })).toMatchObject({
      ...{ from: { day: null, time: '13:00' }, to: { day: 'Tue', time: '13:00' }, aloneFrom: null },
    });
  });
});

describe('the page of a cell', () => {
  it('has the rounds that lead there, with what is done there and how late is too late', () => {
    const rounds = page(sheetOf(), 'CELL').rounds.flatMap(({ person, stops }) =>
      stops.map(({ machine, start, say }) => `${start.time} ${person} ${machine}: ${say}`),
    );
    expect(rounds).toEqual([
      '13:20 Anna M3: Load P4 for C op 10 (1 part)',
      '14:25 Ben M2: Load P3 for B op 10 (1 part)',
      '16:00 Ben M3: Check first piece of C op 10',
    ]);
    const [first] = page(sheetOf(), 'CELL').rounds[0]!.stops;
    // Anna goes at 14:00, and loading takes 20 min.
    expect(first?.latest).toEqual({ day: null, time: '13:40' });
  });

  it('has the tools to be replaced there, as the page of the machine has', () => {
    const sheet = sheetOf({ plan: cared(shopOf(SHOP)) });
    const said = (title: string) => page(sheet, title).care.map(({ start, say }) => `${start.time} ${say}`);
    expect([said('CELL'), said('M2'), said('M3')]).toEqual([['21:30 Replace EM10'], ['21:30 Replace EM10'], []]);
  });

  it('has what to see to before going home, which pages of machines leave to it', () => {
    expect(page(sheetOf(), 'CELL').checks).toEqual([
      { say: 'First piece of C/10/1 checked on M3', by: { day: null, time: '16:15' } },
      { say: 'Filter clean', by: null },
    ]);
    expect(page(sheetOf(), 'M1').checks).toEqual([]);
  });
});
