import fc from 'fast-check';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { unguarded, writeCsv } from '../../../core/exchange';

function bare(text: string): string {
  return text.replace(/^\uFEFF/, '');
}

describe('CSV', () => {
  it('is written as RFC 4180 has it, with the mark by which spreadsheets know UTF-8', () => {
    expect(writeCsv([['a', 'b "c"', 'd,e', 'f\ng', '']])).toBe('\uFEFFa,"b ""c""","d,e","f\ng",\r\n');
  });

  it('keeps numbers as numbers, those below zero too', () => {
    expect(bare(writeCsv([[-1.5, 0, 42]]))).toBe('-1.5,0,42\r\n');
  });

  it.each(['=1+1', '+49 30', '-', '@SUM(A1)', '\tx', "'=1", "''-1"])(
    'puts an apostrophe before %j, so that no spreadsheet reckons it, and takes it off again',
    (text) => {
      const [[cell = ''] = []] = Papa.parse<string[]>(bare(writeCsv([[text]])), { delimiter: ',' }).data;
      expect(cell).toBe(`'${text}`);
      expect(unguarded(cell)).toBe(text);
    },
  );

  it.each(["'tis", "'", '1:45', 'a=b', '12-3'])('leaves %j as it is', (text) => {
    expect(bare(writeCsv([[text]]))).toBe(`${text}\r\n`);
  });

  it('gives back every text, and none that a spreadsheet could take for a formula', () => {
    const row = fc.array(fc.string({ maxLength: 8 }), { minLength: 2, maxLength: 2 });
    fc.assert(
      fc.property(fc.array(row, { minLength: 1, maxLength: 4 }), (texts) => {
        const { data } = Papa.parse<string[]>(bare(writeCsv(texts)), { delimiter: ',', newline: '\r\n' });
        const cells = data.slice(0, -1);
        expect(cells.flat().filter((cell) => /^[=+\-@\t\r]/.test(cell))).toEqual([]);
        expect(cells.map((one) => one.map(unguarded))).toEqual(texts);
      }),
      { seed: 1, numRuns: 1000 },
    );
  });
});
