import { describe, expect, it } from 'vitest';
import { type ImportCells, type ImportReading, readImport } from '../../../core/exchange';
import type { TableName } from '../../../core/shop';
import { smallShop } from '../../support/small-shop';

/** Rows typed as one text, cells parted by `|`. */
function read(table: TableName, text: string, more: Partial<ImportCells> = {}, shop = smallShop()): ImportReading {
  const cells = text.split('\n').map((line) => line.split('|').map((cell) => cell.trim()));
  return readImport(shop, { table, cells, header: null, columns: null, timeOfDay: '16:00', ...more });
}

const faultsIn = ({ rows }: ImportReading): string[] => rows.flatMap(({ faults }) => faults);
const rowsIn = ({ puts }: ImportReading): unknown[] => puts.map(({ row }) => row);

describe('the columns of a sheet', () => {
  it('are known by field names, labels and usual words, whatever their capitals and spaces', () => {
    const { header, columns } = read(
      'jobs',
      'JOB NO | Qty | due_date | Not before | parts per pallet | Colour\nJ-1|1||||',
    );
    expect(header).toBe(true);
    expect(columns).toEqual(['id', 'quantity', 'due', 'release', 'perPallet', null]);
  });

  it('are taken in the order of the table where no row heads them', () => {
    const { header, columns, puts } = read('pallets', 'P7 | Large | chuck\nP8 | | vice');
    expect(header).toBe(false);
    expect(columns).toEqual(['id', 'name', 'fixture']);
    expect(puts.map(({ row }) => row)).toEqual([
      { id: 'P7', name: 'Large', fixture: 'chuck' },
      { id: 'P8', fixture: 'vice' },
    ]);
  });

  it('are the ones chosen, and a column left out is not read', () => {
    const reading = read('pallets', 'Name | Kind\nP7 | chuck', { columns: ['id', 'fixture'], header: true });
    expect(rowsIn(reading)).toEqual([{ id: 'P7', fixture: 'chuck' }]);
    const without = read('pallets', 'pallet | fixture | name\nP7 | chuck | Large', {
      columns: ['id', 'fixture', null],
    });
    expect(rowsIn(without)).toEqual([{ id: 'P7', fixture: 'chuck' }]);
  });

  it('that come twice are taken once, the first', () => {
    expect(read('pallets', 'pallet | fixture | fixture\nP7|a|b').columns).toEqual(['id', 'fixture', null]);
  });
});

describe('the rows of a sheet', () => {
  it('change only the columns given where their id is there, and an empty cell changes nothing', () => {
    const { puts, rows } = read('pallets', 'pallet | fixture | name\nP1 | | Old one\nP9 | vice |');
    expect(puts).toEqual([
      { replaces: 'P1', row: { id: 'P1', name: 'Old one', fixture: 'vice', machines: ['M1'], inUse: true } },
      { replaces: null, row: { id: 'P9', fixture: 'vice' } },
    ]);
    expect(rows.map(({ replaces }) => replaces)).toEqual([true, false]);
  });

  it('empty a list by the word none', () => {
    expect(rowsIn(read('pallets', 'pallet | fits\nP1 | none'))).toMatchObject([{ id: 'P1', machines: [] }]);
  });

  it('are counted from the top with the header and blank ones', () => {
    const reading = read('pallets', 'pallet | fixture\n\n|\nP9 |\nP8 | vice');
    expect(faultsIn(reading)).toEqual(['Row 4, fixture: is empty; a new row needs it, so fill in fixture.']);
    expect(reading.rows.map(({ row }) => row)).toEqual([4, 5]);
    expect(reading.puts).toHaveLength(1);
  });

  it('say what is wrong with each cell and with the record as a whole', () => {
    const reading = read('tools', 'tool | life | spread | finish\nT9 | long | 3 | maybe\nT8 | 0 | 0,2 | x');
    expect(faultsIn(reading)).toEqual([
      'Row 2, life: "long" is not a length of time; write minutes as 105, or hours and minutes as 1:45.',
      'Row 2, lifeSpread: "3" is more than all; write it as 0.8 or 80 %.',
      'Row 2, finish: "maybe" is neither yes nor no; write yes or no.',
      'Row 3: Tool T8, life: must be at least 1 minute.',
    ]);
    expect(reading.puts).toEqual([]);
  });

  it('are refused without an id, and the second of an id that comes twice', () => {
    const reading = read('pallets', 'pallet | fixture\n | vice\nP9 | vice\nP9 | chuck');
    expect(faultsIn(reading)).toEqual([
      'Row 2, id: is empty; give the short name the row is known by.',
      'Row 4: P9 stands in row 3 already; keep one of the two.',
    ]);
    expect(rowsIn(reading)).toEqual([{ id: 'P9', fixture: 'vice' }]);
  });

  it('take a text that begins like a formula without the apostrophe that keeps it from being one', () => {
    expect(rowsIn(read('pallets', "pallet | fixture | name\nP9 | vice | '=SUM(A1)"))).toMatchObject([
      { name: '=SUM(A1)' },
    ]);
  });

  it('take several names in one cell, parted by semicolons or commas', () => {
    for (const cell of ['M1; M2', 'M1, M2', 'M1;M2;']) {
      expect(rowsIn(read('pallets', `pallet | fixture | fits\nP9 | vice | ${cell}`))).toMatchObject([
        { machines: ['M1', 'M2'] },
      ]);
    }
  });

  it('take hours and breaks as people write them', () => {
    const text =
      'person | hours | breaks | dates that differ\nBo | mon-fri 06:00-14:00; sat 6:00 - 12:00 extra | 9:00-9:15 | 24.12.2026 closed';
    expect(rowsIn(read('people', text))).toEqual([
      {
        id: 'Bo',
        hours: [
          { days: ['mon', 'tue', 'wed', 'thu', 'fri'], from: '06:00', to: '14:00', extra: false },
          { days: ['sat'], from: '06:00', to: '12:00', extra: true },
        ],
        breaks: [{ from: '09:00', to: '09:15' }],
        exceptions: [{ date: '2026-12-24', hours: [] }],
      },
    ]);
  });
});

describe('numbers and times in a sheet', () => {
  const job = (due: string) => read('jobs', `job | due | machine | cycle\nJ-9 | ${due} | M1 | 1:45`);
  const rate = (text: string) => read('machines', `machine | kind | rate\nM9 | mill | ${text}`);

  it.each(['2026-11-27 16:00', '2026-11-27T16:00', '2026-11-27 16:00:00', '27.11.2026 16:00', '27.11.2026 16.00'])(
    'read %s as a date and time',
    (text) => {
      expect(rowsIn(job(text))).toMatchObject([{ due: '2026-11-27T16:00' }]);
    },
  );

  it('read a date alone at the time of day that was said, and count it', () => {
    const text = 'job | due | machine | cycle\nJ-9 | 27.11.2026 | M1 | 60';
    const reading = read('jobs', text, { timeOfDay: '12:00' });
    expect(rowsIn(reading)).toMatchObject([{ due: '2026-11-27T12:00' }]);
    expect(reading.timeless).toBe(1);
  });

  it.each([
    ['11/12/2026 16:00', 'means other days in other countries'],
    ['31.11.2026 16:00', 'there is no day'],
    ['next week', 'is not a date and time'],
    ['46353.67', 'is not a date and time'],
    ['2026-11-27 25:00', 'is not a time of day'],
  ])('refuse %s and say how to write it', (text, why) => {
    const [fault] = faultsIn(job(text));
    expect(fault).toMatch(/^Row 2, due: /);
    expect(fault).toContain(why);
    expect(fault).toContain('write it as');
  });

  it('take a decimal comma, and refuse what may be a thousand or a fraction', () => {
    expect(rowsIn(rate('62,5'))).toMatchObject([{ ratePerHour: 62.5 }]);
    expect(rowsIn(rate('1.125'))).toMatchObject([{ ratePerHour: 1.125 }]);
    expect(faultsIn(rate('1,500'))).toEqual([
      'Row 2, ratePerHour: "1,500" can mean 1500 or 1.500; write it as one of these.',
    ]);
    const parts = read('jobs', 'job | qty | due | machine | cycle\nJ-9 | 1.200 | 2026-11-27 16:00 | M1 | 60');
    expect(faultsIn(parts)[0]).toContain('is not a whole number');
  });
});

describe('the rows of one job', () => {
  it('are its operations, and it says its own fields once or the same each time', () => {
    const { puts, rows } = read(
      'jobs',
      [
        'job | due | quantity | op | machine | cycle | fixture | load | unload | program | revision',
        'J-9 | 2026-11-27 16:00 | 8 | 10 | M1; M2 | 3:00; 2:50 | vice | 12 | 8 | 1010 | B',
        'J-9 | | 8 | 20 | M1 | 45 | | | | |',
        '| | | 30 | M2 | 30 | | | | |',
        'J-8 | 2026-11-28 12:00 | | | M1 | 60 | | | | |',
      ].join('\n'),
    );
    expect(rows.flatMap(({ faults }) => faults)).toEqual([]);
    expect(puts).toEqual([
      {
        replaces: null,
        row: {
          id: 'J-9',
          due: '2026-11-27T16:00',
          quantity: 8,
          route: [
            {
              id: '10',
              machines: [
                { machine: 'M1', cycle: 180 },
                { machine: 'M2', cycle: 170 },
              ],
              fixture: 'vice',
              load: 12,
              unload: 8,
              program: '1010',
              revision: 'B',
            },
            { id: '20', machines: [{ machine: 'M1', cycle: 45 }] },
            { id: '30', machines: [{ machine: 'M2', cycle: 30 }] },
          ],
        },
      },
      {
        replaces: null,
        row: { id: 'J-8', due: '2026-11-28T12:00', route: [{ id: '10', machines: [{ machine: 'M1', cycle: 60 }] }] },
      },
    ]);
  });

  it('wait together until the wrong one is right', () => {
    const reading = read(
      'jobs',
      'job | due | op | machine | cycle\nJ-9 | 2026-11-27 16:00 | 10 | M1 | 60\nJ-9 | | 20 | M1 |\nJ-8 | 2026-11-27 16:00 | 10 | M1 | 60',
    );
    expect(faultsIn(reading)).toEqual([
      'Row 2: belongs to J-9, which waits until row 3 is right.',
      'Row 3, cycle: is empty; give the minutes of a full pallet, as 105 or 1:45.',
    ]);
    expect(reading.puts.map(({ row }) => (row as { id: string }).id)).toEqual(['J-8']);
  });

  it('are refused where they contradict each other or come twice', () => {
    const reading = read(
      'jobs',
      'job | due | op | machine | cycle\nJ-9 | 2026-11-27 16:00 | 10 | M1 | 60\nJ-9 | 2026-11-28 16:00 | 10 | M1 | 1;2;3',
    );
    expect(faultsIn(reading).slice(1)).toEqual([
      'Row 3, due: differs from row 2 of J-9, which says "2026-11-27 16:00"; make them the same.',
      'Row 3, op: J-9 has operation 10 in a row above already; give it another number.',
      'Row 3, cycle: has 3 cycles for 1 machine; give one for all, or one for each in the same order.',
    ]);
  });

  it('of a job that is there change what they give and keep its other operations', () => {
    const shop = smallShop();
    const [job] = shop.jobs;
    const { puts } = read('jobs', 'job | op | cycle | machine\nA | 10 | 2:00 |\nA | 20 | 30 | M1');
    expect(puts).toEqual([
      {
        replaces: 'A',
        row: {
          ...job,
          route: [
            { ...job?.route[0], machines: [{ machine: 'M1', cycle: 120 }] },
            { id: '20', machines: [{ machine: 'M1', cycle: 30 }] },
          ],
        },
      },
    ]);
    const due = read('jobs', 'job | due\nB | 2026-12-01 12:00');
    expect(rowsIn(due)).toEqual([{ ...shop.jobs[1], due: '2026-12-01T12:00' }]);
  });

  it('need a due time and an operation where the job is new', () => {
    expect(faultsIn(read('jobs', 'job | quantity\nJ-9 | 4'))).toEqual([
      'Row 2, due: is empty; a new row needs it, so fill in due.',
    ]);
    expect(faultsIn(read('jobs', 'job | due\nJ-9 | 2026-11-27 16:00'))).toEqual([
      'Row 2: J-9 has no operation; give machine and cycle, or a family.',
    ]);
  });

  it('without an id go on with the job above only where they are an operation', () => {
    const reading = read(
      'jobs',
      'job | due | customer | machine | cycle\nJ-9 | 2026-11-27 16:00 | | M1 | 60\n | | Cap mould | |',
    );
    expect(faultsIn(reading)).toEqual(['Row 3, id: is empty; give the short name the row is known by.']);
    expect(rowsIn(reading)).toHaveLength(1);
  });

  it('begin with the route of their family', () => {
    const [job] = smallShop().jobs;
    const shop = smallShop({ templates: [{ id: 'Cap', name: 'Cap insert', weight: 2, route: job?.route ?? [] }] });
    const reading = read(
      'jobs',
      'job | due | family | op | load\nJ-9 | 2026-11-27 16:00 | cap insert | 10 | 20\nJ-8 | 2026-11-27 16:00 | Lid | |',
      {},
      shop,
    );
    expect(faultsIn(reading)).toEqual([
      'Row 3, family: there is no family "Lid"; save a route as its template first, or give machine and cycle.',
    ]);
    expect(rowsIn(reading)).toEqual([
      {
        id: 'J-9',
        due: '2026-11-27T16:00',
        weight: 2,
        suspectLimit: null,
        route: [{ ...job?.route[0], load: 20 }],
      },
    ]);
  });
});
