import type { Content, TableCell } from 'pdfmake/interfaces';
import type { RunSheet, SheetPage, SheetRow } from '../../core/contract';
import { palletText, partsText, placeCell, programWords, spanCell } from './cells';
import { headOf } from './head';
import { type Column, tableOf } from './table';

/** The last one is left 132 points on A4 and 82 on Letter to be written in. */
const COLUMNS: readonly Column[] = [
  ['No.', 30],
  ['Pallet', 66],
  ['From, to', 78],
  ['Job, operation', 140],
  ['Program', 48],
  ['Measure, correction', 136],
  ['Tool left', 46],
  ['If it stops', 58],
  ['What happened', 'rest'],
];

/** What one machine runs. */
export function machineTable(across: number, sheet: RunSheet, page: SheetPage): Content {
  return tableOf(
    across,
    headOf(across, sheet, page),
    COLUMNS,
    page.rows.map((row) => [cellsOf(row)]),
  );
}

function cellsOf(row: SheetRow): TableCell[] {
  const { job, jobName, operation, operationName, spareBlanks, measure, correction, tool } = row;
  return [
    placeCell(row),
    { stack: [palletText(row), partsText(row), ...(spareBlanks === 0 ? [] : [`${spareBlanks} spare`])] },
    spanCell(row),
    { stack: [strong(`${job} op ${operation}`), [jobName, operationName].filter((name) => name !== '').join(', ')] },
    { stack: programWords(row).map(strong) },
    { stack: [...(measure === '' ? [] : [strong(measure)]), ...(correction === '' ? [] : [correction])] },
    tool === null ? '' : { stack: [strong(tool.id), `${tool.minutes} min`] },
    strong(row.ifStops),
    '',
  ];
}

function strong(text: string): { text: string; bold: boolean } {
  return { text, bold: true };
}
