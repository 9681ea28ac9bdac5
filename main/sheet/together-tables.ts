import type { Content, TableCell } from 'pdfmake/interfaces';
import type { RunSheet, SheetPage, SheetStop } from '../../core/contract';
import { palletText, partsText, placeCell, programWords, tickCell, timeCell, timeText } from './cells';
import { headOf } from './head';
import { type Column, tableOf } from './table';

/** Points between two tables. */
const GAP = 14;

const ORDER: readonly Column[] = [
  ['No.', 30],
  ['Pallet', 70],
  ['From', 66],
  ['To', 66],
  ['Machine', 66],
  ['Job, operation', 'rest'],
  ['Program', 76],
  ['If it stops', 110],
];

const ROUNDS: readonly Column[] = [
  ['From', 66],
  ['At the latest', 74],
  ['Who', 90],
  ['Machine', 66],
  ['What to do', 'rest'],
  ['Done', 40],
];

const CHECKS: readonly Column[] = [
  ['What', 'rest'],
  ['By', 66],
  ['Seen to', 46],
  ['By whom', 140],
];

/** In which order the pallets of several machines run. */
export function orderTable(across: number, sheet: RunSheet, page: SheetPage): Content {
  const rows = page.rows.map((row): TableCell[] => [
    placeCell(row),
    palletText(row) as TableCell,
    timeCell(row.start, true),
    timeCell(row.end),
    { text: row.machine, fontSize: 14, bold: true },
    {
      text: [
        { text: `${row.job} op ${row.operation} `, bold: true },
        [row.jobName, partsText(row)].filter((text) => text !== '').join(', '),
      ],
    },
    programWords(row).join(' '),
    row.ifStops,
  ]);
  return tableOf(
    across,
    headOf(across, sheet, page),
    ORDER,
    rows.map((row) => [row]),
  );
}

/** Who comes when to do what, and how late is too late; the stops of one round belong together. */
export function roundsTable(across: number, page: SheetPage): Content {
  const groups = page.rounds.map(({ stops }) => stops.map(stopCells));
  return { ...tableOf(across, titleOf(page, 'Rounds'), ROUNDS, groups), margin: [0, GAP, 0, 0] };
}

function stopCells({ start, latest, person, machine, say }: SheetStop): TableCell[] {
  return [timeCell(start, true), timeCell(latest), person, { text: machine, bold: true }, say, tickCell()];
}

/** What to see to before the last person leaves. */
export function checksTable(across: number, page: SheetPage): Content {
  const rows = page.checks.map(({ say, by }): TableCell[] => [
    say,
    by === null ? '' : timeCell(by, true),
    tickCell(),
    '',
  ]);
  return { ...tableOf(across, titleOf(page, 'Before going home'), CHECKS, [rows]), margin: [0, GAP, 0, 0] };
}

/** Tools replaced and dressed, and why a machine stands; under the table of what runs. */
export function notesOf({ care, stands, of }: SheetPage): Content[] {
  const acts = care.map(({ start, person, machine, say }) => {
    const what = `${say.charAt(0).toLowerCase()}${say.slice(1)}`;
    return `${timeText(start)} ${person}: ${what}${of === 'machine' ? '' : ` on ${machine}`}`;
  });
  return [
    ...(acts.length === 0 ? [] : [note('Tools: ', `${acts.join('; ')}.`)]),
    ...(stands === null ? [] : [note('Stands: ', stands)]),
  ];
}

function note(head: string, text: string): Content {
  return { text: [{ text: head, bold: true }, text], margin: [0, 6, 0, 0] };
}

function titleOf({ title, name }: SheetPage, what: string): Content {
  return { text: [{ text: what, fontSize: 16, bold: true }, `   ${title} ${name}`] };
}
