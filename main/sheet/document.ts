import type { Content, TDocumentDefinitions } from 'pdfmake/interfaces';
import type { RunSheet, SheetPage, SheetPaper } from '../../core/contract';
import { headOf } from './head';
import { machineTable } from './machine-table';
import { checksTable, notesOf, orderTable, roundsTable } from './together-tables';

/** Points; what lies outside it some printers cannot reach. */
const MARGIN = 28;

/** Points, ISO 216 and ANSI Y14.1; what is as wide as the paper lies across it. */
const WIDTH: Readonly<Record<SheetPaper, number>> = { A4: 841.89, Letter: 792 };

/** The document as pdfmake takes it. All sizes are in points. */
export function documentOf(sheet: RunSheet, paper: SheetPaper): TDocumentDefinitions {
  const across = WIDTH[paper] - 2 * MARGIN;
  return {
    pageSize: paper === 'A4' ? 'A4' : 'LETTER',
    pageOrientation: 'landscape',
    pageMargins: [MARGIN, MARGIN, MARGIN, MARGIN + 10],
    info: { title: `Run sheet, ${sheet.shop}, ${sheet.date}`, creator: 'Nightload', producer: 'Nightload' },
    defaultStyle: { font: 'Roboto', fontSize: 11, lineHeight: 1.05 },
    content: sheet.pages.map((page, i): Content => {
      const stack = page.of === 'machine' ? machineStack(across, sheet, page) : togetherStack(across, sheet, page);
      return i === 0 ? { stack } : { stack, pageBreak: 'before' };
    }),
    footer: (page, pages) => ({
      margin: [MARGIN, 6, MARGIN, 0],
      columns: [
        { text: `Plan ${sheet.plan}, ${sheet.standing}` },
        { text: `page ${page} of ${pages}`, alignment: 'right', bold: true },
      ],
    }),
  };
}

function machineStack(across: number, sheet: RunSheet, page: SheetPage): Content[] {
  return [page.rows.length > 0 ? machineTable(across, sheet, page) : headOf(across, sheet, page), ...notesOf(page)];
}

function togetherStack(across: number, sheet: RunSheet, page: SheetPage): Content[] {
  return [
    page.rows.length > 0 ? orderTable(across, sheet, page) : headOf(across, sheet, page),
    ...notesOf(page),
    ...(page.rounds.length > 0 ? [roundsTable(across, page)] : []),
    ...(page.checks.length > 0 ? [checksTable(across, page)] : []),
  ];
}
