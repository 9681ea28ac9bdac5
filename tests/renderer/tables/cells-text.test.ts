import { describe, expect, it } from 'vitest';
import { cellsOf, isBlock, textOf } from '../../../renderer/tables/import/cells-text';

describe('a paste', () => {
  it.each(['a\tb', 'a\nb', 'a\r\nb\r\n'])('of %j is a block of cells', (text) => {
    expect(isBlock(text)).toBe(true);
  });

  it.each(['a', 'a, b; c', 'one cell\r\n', 'one cell\n', ''])(
    'of %j belongs into the field it is pasted into',
    (text) => {
      expect(isBlock(text)).toBe(false);
    },
  );
});

describe('text as cells', () => {
  it.each([
    ['commas', 'a,b\r\n1,"x, y"\r\n', ','],
    ['semicolons, beside decimal commas', 'a;b\n1,5;"x, y"\n2,5;z', ';'],
    ['tabs, beside everything else', 'a\tb\n1,5; 2,5\t"x\ny"', '\t'],
  ] as const)('finds %s', (_, text, delimiter) => {
    const { cells, delimiter: found, wrong } = cellsOf(text, null);
    expect(found).toBe(delimiter);
    expect(wrong).toBeNull();
    expect(cells.slice(0, 2).map((row) => row.length)).toEqual([2, 2]);
  });

  it('is cut as was said, whatever would have been found', () => {
    expect(cellsOf('a,b;c', ';').cells).toEqual([['a,b', 'c']]);
  });

  it('may be one column, and begin with a byte order mark', () => {
    expect(cellsOf('\uFEFFpallet\nP1\nP2', null)).toMatchObject({ cells: [['pallet'], ['P1'], ['P2']], wrong: null });
  });

  it('with a quote that is never closed is said to be wrong, by its row', () => {
    expect(cellsOf('a,b\n1,"x\n2,y', null).wrong).toContain('A quote in row 2 is not closed');
  });
});

describe('the bytes of a file', () => {
  const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

  it('are read in UTF-8 with and without a byte order mark, and in UTF-16 with one', () => {
    expect(textOf('a.csv', utf8('é,b'))).toEqual({ ok: true, value: 'é,b' });
    expect(textOf('a.csv', utf8('\uFEFFé,b'))).toMatchObject({ ok: true, value: 'é,b' });
    expect(textOf('a.csv', new Uint8Array([0xff, 0xfe, 0xe9, 0, 0x2c, 0]))).toEqual({ ok: true, value: 'é,' });
  });

  it.each([
    ['nothing', new Uint8Array(), 'is empty'],
    ['only space', utf8(' \n'), 'is empty'],
    ['Windows-1252', new Uint8Array([0x4d, 0xfc, 0x2c, 0x41]), 'Save it as CSV in UTF-8'],
    ['a workbook', new Uint8Array([0x50, 0x4b, 3, 4]), 'is a workbook, not CSV'],
    ['no text', utf8('a\0b'), 'holds no text'],
  ])('of %s are refused by a sentence with the way out', (_, bytes, why) => {
    const read = textOf('jobs.csv', bytes);
    expect(read.ok).toBe(false);
    if (!read.ok) expect(read.say).toMatch(/^jobs\.csv .*\.$/);
    if (!read.ok) expect(read.say).toContain(why);
  });
});
