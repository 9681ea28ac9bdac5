import type { Content, ContentTable, TableCell } from 'pdfmake/interfaces';

/** Title of a column, and its width in points; `rest` takes what the paper leaves. */
export type Column = readonly [head: string, width: number | 'rest'];

/** Rows that belong together have thin lines between them. */
export type Group = readonly TableCell[][];

const PAD = 3;
/** Above the rows: the title of the table, and the heads of its columns. */
const HEADER_ROWS = 2;

/**
 * A table as wide as `across`, whose title and heads come again on each page it reaches, and whose rows are never split.
 * Long words are broken: all widths are given, because a column of width `*` would grow with its longest word.
 */
export function tableOf(
  across: number,
  title: Content,
  columns: readonly Column[],
  groups: readonly Group[],
): ContentTable {
  const taken = columns.reduce((sum, [, width]) => sum + 2 * PAD + (width === 'rest' ? 0 : width), 0);
  const heavy = new Set([HEADER_ROWS]);
  let last = HEADER_ROWS;
  for (const { length } of groups) {
    last += length;
    heavy.add(last);
  }
  return {
    layout: {
      hLineWidth: (line) => (line < HEADER_ROWS ? 0 : line === HEADER_ROWS ? 1.5 : heavy.has(line) ? 1 : 0.4),
      vLineWidth: () => 0,
      paddingLeft: () => PAD,
      paddingRight: () => PAD,
      paddingTop: () => PAD,
      paddingBottom: () => PAD,
    },
    table: {
      headerRows: HEADER_ROWS,
      keepWithHeaderRows: 1,
      dontBreakRows: true,
      widths: columns.map(([, width]) => (width === 'rest' ? across - taken : width)),
      body: [
        [
          { stack: [title], colSpan: columns.length, margin: [-PAD, 0, -PAD, 2] },
          ...columns.slice(1).map((): TableCell => ''),
        ],
        columns.map(([head]): TableCell => ({ text: head, bold: true })),
        ...groups.flat(),
      ],
    },
  };
}
