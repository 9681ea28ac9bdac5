import { beforeAll, describe, expect, it } from 'vitest';
import type { RunSheet, SheetPage, SheetPaper } from '../../../core/contract';
import { sheetPdf } from '../../../main/sheet';
import { sheetOfFixture } from '../../renderer/support/run-sheet';
import { type PdfPage, type Piece, readPdf } from '../../support/read-pdf';

const read = async (sheet: RunSheet, paper: SheetPaper): Promise<PdfPage[]> => readPdf(await sheetPdf(sheet, paper));

/** Pieces of text that lie over each other, or reach into the margin of 28 points; blanks cover nothing. */
function misplaced({ width, height, pieces }: PdfPage): string[] {
  // A word at the end of a line brings the blank behind it along, a quarter of the size wide in Roboto.
  const said = pieces
    .filter(({ text }) => text.trim() !== '')
    .map((one) => (one.text.endsWith(' ') ? { ...one, width: one.width - 0.24 * one.size } : one));
  const beyond = said.filter(
    ({ x, y, size, width: long }) => x < 27.9 || x + long > width - 27.9 || y < 8 || y + size > height - 20,
  );
  const over = said.flatMap((one, i) =>
    said
      .slice(i + 1)
      .filter((other) => overlap(one, other))
      .map((other) => `${one.text} | ${other.text}`),
  );
  return [...beyond.map(({ text }) => `beyond: ${text}`), ...over];
}

/** Capital letters of Roboto are 0.71 of the size high. */
function overlap(a: Piece, b: Piece): boolean {
  const isBeside = a.x + a.width <= b.x + 0.1 || b.x + b.width <= a.x + 0.1;
  const isAbove = a.y >= b.y + 0.7 * b.size || b.y >= a.y + 0.7 * a.size;
  return !isBeside && !isAbove;
}

describe.each(['A4', 'Letter'] as const)('the run sheet as a PDF on %s', (paper) => {
  const sheet = sheetOfFixture();
  let pages: PdfPage[] = [];
  beforeAll(async () => {
    pages = await read(sheet, paper);
  });
  /** The pages that begin with a title. */
  const of = (title: string): PdfPage[] => pages.filter(({ text }) => text.startsWith(title));

  it('lies across the paper', () => {
    const [width, height] = paper === 'A4' ? [841.89, 595.28] : [792, 612];
    for (const page of pages) expect([page.width, page.height]).toEqual([width, height]);
  });

  it('has a page for each machine and for the shop, numbered to the last', () => {
    for (const { title } of sheet.pages) expect(of(title).length, title).toBeGreaterThan(0);
    expect(pages.length).toBeGreaterThanOrEqual(sheet.pages.length);
    pages.forEach(({ text }, at) => {
      expect(text.replaceAll(' ', '')).toContain(`page${at + 1}of${pages.length}`);
    });
  });

  it('says on the page of a machine what runs there, in its order, in letters to be read from an arm’s length', () => {
    const [page] = of('M1');
    const pallets = page!.pieces.filter(({ size }) => size === 18).map(({ text }) => text);
    expect(pallets.filter((text) => text.startsWith('P-'))).toEqual(['P-01', 'P-02', 'P-03', 'P-04', 'P-05']);
    expect(page!.text.replaceAll(' ', '')).toContain('Nightof Wed25Nov'.replaceAll(' ', ''));
    expect(Math.min(...page!.pieces.map(({ size }) => size))).toBe(11);
    const times = page!.pieces.filter(({ text, x }) => /^\d\d:\d\d$/.test(text) && x > 120 && x < 220);
    expect(times.length).toBeGreaterThanOrEqual(10);
    expect(Math.min(...times.map(({ size }) => size))).toBe(13);
  });

  it('has no text over another or in the margin', () => {
    expect(pages.flatMap(misplaced)).toEqual([]);
  });

  it('keeps the longest names the shop allows inside their columns', async () => {
    const long = await read(widest(sheet), paper);
    expect(long.flatMap(misplaced)).toEqual([]);
    for (const page of long) expect(page.pieces.length).toBeGreaterThan(10);
  });

  it('begins each page of a machine with more runs than fit with the whole head, and splits no row', async () => {
    const [first] = sheet.pages;
    const rows = Array.from({ length: 5 }, () => first!.rows)
      .flat()
      .map((row, at) => ({ ...row, place: at + 1 }));
    const many = await read({ ...sheet, pages: [{ ...first!, rows }] }, paper);
    expect(many.length).toBeGreaterThan(1);
    const counted = many.map(
      ({ pieces }) => pieces.filter(({ size, text }) => size === 18 && text.startsWith('P-')).length,
    );
    expect(counted.reduce((sum, count) => sum + count, 0)).toBe(rows.length);
    for (const [at, { text }] of many.entries()) {
      expect(text).toContain('Horizontal');
      expect([...text.matchAll(/op/g)].length, `page ${at + 1}`).toBeGreaterThanOrEqual(counted[at]!);
    }
  });

  it('has a page without a table for a machine that runs nothing', () => {
    const [page] = of('B1');
    expect(page!.text).toContain('Stands');
    expect(page!.text).not.toContain('Pallet');
  });
});

/** Every name as long as the shop allows and without a place to break it. */
function widest(sheet: RunSheet): RunSheet {
  const [id, name] = ['n'.repeat(40), `${'n'.repeat(60)} ${'e'.repeat(59)}`];
  const widen = (page: SheetPage): SheetPage => ({
    ...page,
    title: id,
    name,
    rows: page.rows.map((row) => ({
      ...row,
      ...{ machine: id, job: id, jobName: name, operation: id, operationName: name, program: id, revision: id },
      ...{ pallet: id, measure: name, correction: `24 Nov: ${name} (${name})`, tool: { id, minutes: 99_999 } },
    })),
    rounds: page.rounds.map((round) => ({
      ...round,
      stops: round.stops.map((stop) => ({ ...stop, person: name, machine: id, say: `Replace ${id} and ${id}` })),
    })),
    checks: page.checks.map((check) => ({ ...check, say: name })),
  });
  return { ...sheet, people: [name, name], pages: sheet.pages.map(widen) };
}
