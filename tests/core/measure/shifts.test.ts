import { describe, expect, it } from 'vitest';
import type { ShiftRow } from '../../../core/contract';
import { gapsOf } from '../../../core/explain';
import { NO_SHIFT, shiftTable } from '../../../core/measure';
import type { Plan, Shop } from '../../../core/shop';
import { clockOn, minuteOf } from '../../../core/time';
import { at, DAILY, jobOf, personOf, planOf, shopOf } from './fixture';

const SHIFTS = [
  { id: 'early', ...DAILY('06:00', '14:00') },
  { id: 'late', ...DAILY('14:00', '22:00') },
  { id: 'night', ...DAILY('22:00', '06:00') },
];

function tableOf(shop: Shop, plan: Plan): ShiftRow[] {
  return shiftTable(shop, plan, gapsOf(shop, plan));
}

function sumOf(row: ShiftRow): number {
  return row.cutAttended + row.cutUnattended + row.handWork + row.waiting + row.dry + row.off + row.nothingDue;
}

// Own instance: a table mill, Anna from 06:00 to 14:00.
const SHOP = shopOf({
  shifts: SHIFTS,
  people: [personOf('Anna', '06:00', '14:00')],
  machines: [
    {
      id: 'M1',
      kind: 'mill',
      closures: [{ from: '2026-12-01T02:00', to: '2026-12-01T04:00', why: 'Care' }],
    },
  ],
  pallets: [{ id: 'P1', fixture: 'F' }],
  jobs: [
    jobOf('A', [
      {
        id: '10',
        machines: [{ machine: 'M1', cycle: 600 }],
        fixture: 'F',
        load: 20,
        unload: 10,
        firstPiece: { after: 60, minutes: 30 },
      },
    ]),
  ],
});
const PLAN = planOf(
  [
    {
      run: 'A/10/1',
      machine: 'M1',
      pallet: 'P1',
      load: ['Anna', '13:00', '13:20'],
      // Held from 14:20 until Anna is back.
      cut: ['13:20', '1 15:30'],
      check: ['Anna', '1 06:00', '1 06:30'],
      unload: ['Anna', '2 06:00', '2 06:10'],
    },
  ],
  { now: '12:00', horizon: '9 00:00' },
);

describe('the shift table', () => {
  const rows = tableOf(SHOP, PLAN);

  it('says by eye what a machine made of each shift', () => {
    expect(rows.slice(0, 4)).toEqual([
      // 12:00 to 14:00: an hour in which the plan loads nothing yet, 20 min loading, 40 min cutting.
      {
        machine: 'M1',
        shift: 'early',
        start: at('12:00'),
        end: at('14:00'),
        cutAttended: 40,
        cutUnattended: 0,
        handWork: 20,
        waiting: 0,
        dry: 60,
        off: 0,
        nothingDue: 0,
      },
      {
        machine: 'M1',
        shift: 'late',
        start: at('14:00'),
        end: at('22:00'),
        cutAttended: 0,
        cutUnattended: 20,
        handWork: 0,
        waiting: 460,
        dry: 0,
        off: 0,
        nothingDue: 0,
      },
      {
        machine: 'M1',
        shift: 'night',
        start: at('22:00'),
        end: at('1 06:00'),
        cutAttended: 0,
        cutUnattended: 0,
        handWork: 0,
        waiting: 360,
        dry: 0,
        off: 120,
        nothingDue: 0,
      },
      {
        machine: 'M1',
        shift: 'early',
        start: at('1 06:00'),
        end: at('1 14:00'),
        cutAttended: 450,
        cutUnattended: 0,
        handWork: 30,
        waiting: 0,
        dry: 0,
        off: 0,
        nothingDue: 0,
      },
    ]);
  });

  it('adds up to its window in every row', () => {
    for (const row of rows) expect(sumOf(row)).toBe(row.end - row.start);
  });

  it('covers a week where the last run is off sooner, and no more than the horizon', () => {
    expect([rows[0]!.start, rows.at(-1)!.end]).toEqual([at('12:00'), at('7 00:00')]);
    const short = tableOf(SHOP, { ...PLAN, horizon: at('3 00:00') });
    expect(short.at(-1)!.end).toBe(at('3 00:00'));
  });

  it('covers the whole day of the last run', () => {
    const late = structuredClone(PLAN);
    late.runs[0]!.unload = { person: 'Anna', start: at('8 06:00'), end: at('8 06:10') };
    expect(tableOf(SHOP, late).at(-1)!.end).toBe(at('9 00:00'));
  });

  it('names time that no shift covers, in one row up to the next shift', () => {
    const days = shopOf({ ...SHOP, shifts: [{ id: 'early', days: ['mon', 'wed'], from: '06:00', to: '14:00' }] });
    const rows = tableOf(days, PLAN);
    expect(rows.slice(0, 3).map((r) => [r.shift, r.start, r.end])).toEqual([
      ['early', at('12:00'), at('14:00')],
      [NO_SHIFT, at('14:00'), at('2 06:00')],
      ['early', at('2 06:00'), at('2 14:00')],
    ]);
    for (const row of rows) expect(sumOf(row)).toBe(row.end - row.start);
  });

  it('counts work at a bench as work by hand, not as cutting', () => {
    const bench = shopOf({
      shifts: SHIFTS,
      people: [personOf('Anna', '06:00', '14:00')],
      machines: [{ id: 'B1', kind: 'bench' }],
      jobs: [jobOf('A', [{ id: '10', machines: [{ machine: 'B1', cycle: 120 }] }])],
    });
    const plan = planOf([{ run: 'A/10/1', machine: 'B1', cut: ['07:00', '09:00'], work: ['Anna', '07:00', '09:00'] }]);
    expect(tableOf(bench, plan)[0]).toMatchObject({ handWork: 120, cutAttended: 0, cutUnattended: 0 });
  });
});

describe('a night shift in which the clocks change', () => {
  // True lengths: IANA tz data, Berlin 2027-03-27 7 h and 2026-10-24 9 h.
  it.each([
    { date: '2027-03-27', hours: 7 },
    { date: '2026-10-24', hours: 9 },
  ])('that begins on $date is $hours hours long and adds up', ({ date, hours }) => {
    const clock = clockOn('Europe/Berlin', `${date}T00:00`);
    const now = minuteOf(clock, `${date}T12:00`);
    const plan: Plan = { ...planOf([]), clock, now, horizon: now + 3 * 1440 };
    const start = minuteOf(clock, `${date}T21:30`);
    const run = {
      ...PLAN.runs[0]!,
      load: { person: 'Anna', start: start - 20, end: start },
      start,
      end: start + 300,
      check: null,
      unload: null,
    };
    const rows = tableOf(SHOP, { ...plan, runs: [run] });
    const night = rows.find((r) => r.shift === 'night' && r.start === minuteOf(clock, `${date}T22:00`))!;
    expect(night.end - night.start).toBe(hours * 60);
    expect(night.cutUnattended).toBe(270);
    for (const row of rows) expect(sumOf(row)).toBe(row.end - row.start);
  });
});
