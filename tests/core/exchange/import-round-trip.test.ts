import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { readImport, writeCsv, writeTable } from '../../../core/exchange';
import { demoShop, emptyShop, type Shop, shopSchema, type TableName, tableSchemas } from '../../../core/shop';
import { WEEKDAYS } from '../../../core/time';

const TABLES = Object.keys(tableSchemas) as TableName[];

/** A table as CSV, and what an import of it would put into `into`. */
function importedFrom(shop: Shop, table: TableName, into: Shop) {
  const text = writeCsv(writeTable(shop, table)).replace(/^\uFEFF/, '');
  const cells = Papa.parse<string[]>(text, { delimiter: ',' }).data;
  return readImport(into, { table, cells, header: null, columns: null, timeOfDay: '16:00' });
}

/** The rows of a table after an import into `into`, and all that was wrong with it. */
function rowsAfter(shop: Shop, table: TableName, into: Shop) {
  const { puts, rows } = importedFrom(shop, table, into);
  const kept = into[table].filter(({ id }) => puts.every(({ replaces }) => replaces !== id));
  const after = shopSchema.parse({ ...emptyShop('UTC'), [table]: [...kept, ...puts.map(({ row }) => row)] });
  return { rows: after[table], faults: rows.flatMap(({ faults }) => faults) };
}

function withTemplates(shop: Shop): Shop {
  const [job] = shop.jobs;
  if (job === undefined) return shop;
  const { name, weight, suspectLimit, route } = job;
  return { ...shop, templates: [{ id: 'Cap insert', name, weight, suspectLimit, route }] };
}

const demo = withTemplates(demoShop('2026-11-23'));

/** Texts that a spreadsheet, CSV or our own short writings could trip over. */
const text = fc.oneof(
  fc.string({ maxLength: 12, unit: 'grapheme' }),
  fc.constantFrom(
    '=1+1',
    '+49 30',
    '-',
    '@x',
    "'=a",
    "''-b",
    '"q"',
    'a;b',
    'a,b',
    'none',
    ' x ',
    '[1]',
    '1:45',
    '\t',
    'a\nb',
  ),
);
const id = text.map((t) => t.replaceAll('/', '').trim().slice(0, 40)).filter((t) => t !== '');
const minutes = fc.nat({ max: 5000 });
const some = fc.integer({ min: 1, max: 5000 });
const share = fc.double({ min: 0, max: 0.99, noNaN: true }).map(Math.abs);
const clock = fc.nat({ max: 1439 }).map((m) => new Date(m * 60_000).toISOString().slice(11, 16));
const moment = fc.integer({ min: 0, max: 30_000_000 }).map((m) => new Date(m * 60_000).toISOString().slice(0, 16));
const span = fc.record({ from: clock, to: clock });
const days = fc.subarray([...WEEKDAYS], { minLength: 1 });
const weekly = fc.record({ days, from: clock, to: clock });
const ids = fc.array(id, { maxLength: 3 });

const operation = fc.record({
  id,
  name: text,
  machines: fc.array(fc.record({ machine: id, cycle: some }), { minLength: 1, maxLength: 3 }),
  fixture: fc.option(id),
  perPallet: some,
  load: minutes,
  unload: minutes,
  skill: text,
  firstPiece: fc.option(fc.record({ after: minutes, minutes: some })),
  lag: minutes,
  program: text,
  revision: text,
  measure: text,
  ifStops: fc.constantFrom('skip', 'leave', 'call'),
  correction: fc.option(fc.record({ text: some.map(String), why: text, at: moment.map((m) => m.slice(0, 10)) })),
  tools: fc.array(fc.record({ tool: id, minutes: some }), { maxLength: 2 }),
  checks: fc.array(fc.record({ name: text, chance: share, repeat: minutes, most: some }), { maxLength: 2 }),
  odds: fc.record({ block: share, loss: share }),
  proof: fc.option(
    fc.record({ goodRuns: minutes, longestAlone: minutes, revision: fc.option(text), tools: fc.option(ids) }),
  ),
});
const route = fc.uniqueArray(operation, { minLength: 1, maxLength: 3, selector: (one) => one.id });
const limit = fc.option(some);

const rows: { readonly [T in TableName]: fc.Arbitrary<{ id: string }> } = {
  shifts: fc.record({ id, days, from: clock, to: clock }),
  people: fc.record({
    id,
    name: text,
    skills: fc.array(id, { maxLength: 3 }),
    hours: fc.array(fc.record({ days, from: clock, to: clock, extra: fc.boolean() }), { maxLength: 2 }),
    breaks: fc.array(span, { maxLength: 2 }),
    exceptions: fc.array(
      fc.record({ date: moment.map((m) => m.slice(0, 10)), hours: fc.array(span, { maxLength: 2 }) }),
      { maxLength: 2 },
    ),
  }),
  cells: fc.record({ id, name: text, places: some, stations: some, spot: text }),
  machines: fc.record({
    id,
    name: text,
    kind: fc.constantFrom('mill', 'grind', 'mill-grind', 'bench'),
    inUse: fc.boolean(),
    places: fc.option(minutes),
    cell: fc.option(id),
    stations: some,
    spot: text,
    skill: text,
    hours: fc.array(weekly, { maxLength: 2 }),
    closures: fc.array(fc.record({ from: moment, to: moment, why: text }), { maxLength: 2 }),
    nightFraction: share,
    magazine: fc.array(fc.record({ tool: id, left: fc.array(minutes, { maxLength: 3 }) }), { maxLength: 2 }),
    ratePerHour: share,
  }),
  pallets: fc.record({ id, name: text, fixture: id, machines: ids, inUse: fc.boolean() }),
  tools: fc.record({
    id,
    name: text,
    kind: fc.constantFrom('cutter', 'wheel'),
    life: some,
    lifeSpread: share,
    finish: fc.boolean(),
    replaceMinutes: minutes,
    dressing: fc.option(
      fc.record({
        every: some,
        minutes,
        by: fc.constantFrom('machine', 'hand'),
        usesMm: share,
        leftMm: share,
      }),
    ),
  }),
  jobs: fc.record({
    id,
    name: text,
    customer: text,
    quantity: some,
    release: fc.option(moment),
    due: moment,
    weight: share,
    overdue: fc.boolean(),
    suspectLimit: limit,
    spareBlanks: minutes,
    route,
  }),
  templates: fc.record({ id, name: text, weight: share, suspectLimit: limit, route }),
};

describe('a table as CSV', () => {
  it.each(TABLES)('of the demo shop comes back whole into an empty shop: %s', (table) => {
    const { rows, faults } = rowsAfter(demo, table, emptyShop('UTC'));
    expect(faults).toEqual([]);
    expect(demo[table].length).toBeGreaterThan(0);
    expect(rows).toEqual(demo[table]);
  });

  it.each(TABLES)('changes nothing in the shop it came from: %s', (table) => {
    const { puts } = importedFrom(demo, table, demo);
    expect(puts.map(({ replaces }) => replaces)).toEqual(demo[table].map((row) => row.id));
    expect(rowsAfter(demo, table, demo).rows).toEqual(demo[table]);
  });

  it.each(TABLES)('comes back whole whatever stands in it: %s', (table) => {
    const list = fc.uniqueArray(rows[table], { minLength: 1, maxLength: 3, selector: (row) => row.id });
    fc.assert(
      fc.property(list, (drawn) => {
        const shop = shopSchema.parse({ ...emptyShop('UTC'), [table]: drawn });
        const after = rowsAfter(shop, table, emptyShop('UTC'));
        expect(after.faults).toEqual([]);
        expect(after.rows).toEqual(shop[table]);
      }),
      { seed: 1, numRuns: 300 },
    );
  });
});
