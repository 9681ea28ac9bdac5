import { parseRow } from '../../shop';
import type { Reading } from './cell';
import { readText } from './cells';
import { type Draft, type ImportColumn, withValue } from './column';
import { type PlantTable, plantColumns } from './plant-columns';
import type { ImportRow, RowPut, RowsRead, RowsToRead, TextRow } from './reading';

/** Rows each of which is one record: those whose id is there change only in the columns given. */
export function readPlantRows(table: PlantTable, { shop, rows }: RowsToRead, reading: Reading): RowsRead {
  const there = new Map<string, Draft>(shop[table].map((row) => [row.id, row]));
  const firstRows = new Map<string, number>();
  const read: ImportRow[] = [];
  const puts: RowPut[] = [];
  for (const text of rows) {
    const id = nameIn(text, 'id') ?? null;
    const before = id === null ? undefined : there.get(id);
    const { draft, wrong } = withTexts(before ?? {}, text, plantColumns[table], reading);
    const lacking = missing(text.texts, plantColumns[table], before === undefined);
    const faults = [...wrong, ...lacking].map((say) => `Row ${text.row}${say}`);
    const first = id === null ? undefined : firstRows.get(id);
    if (first !== undefined) faults.push(`Row ${text.row}: ${id} stands in row ${first} already; keep one of the two.`);
    else if (id !== null) firstRows.set(id, text.row);
    if (faults.length === 0) {
      const parsed = parseRow(table, draft);
      if (!parsed.ok) faults.push(...parsed.faults.map((fault) => `Row ${text.row}: ${fault.say}`));
    }
    read.push({ row: text.row, faults, replaces: before !== undefined });
    if (faults.length === 0) puts.push({ replaces: before === undefined ? null : id, row: draft });
  }
  return { rows: read, puts };
}

/** The name in a field of the row. */
export function nameIn({ texts }: TextRow, field: string): string | undefined {
  const text = texts.get(field);
  return text === undefined ? undefined : readText(text);
}

/**
 * The draft with what the row says in these columns, and what of it cannot be read: sentences that go on behind the
 * row's number, `, due: is empty.`
 */
export function withTexts(
  before: Draft,
  { texts }: TextRow,
  columns: readonly ImportColumn[],
  reading: Reading,
): { draft: Draft; wrong: readonly string[] } {
  let draft = before;
  const wrong: string[] = [];
  for (const { field, path, cell } of columns) {
    const text = texts.get(field);
    if (text === undefined) continue;
    const value = cell.read(text, reading);
    if (value.ok) draft = withValue(draft, path, value.value);
    else wrong.push(`, ${field}: ${value.say}.`);
  }
  return { draft, wrong };
}

/**
 * What a row lacks that it cannot do without: its id, and if it is new the rest of what is needed. Sentences that go on
 * behind the row's number.
 */
export function missing(texts: TextRow['texts'], columns: readonly ImportColumn[], isNew: boolean): string[] {
  return columns
    .filter(({ field, needed }) => needed && !texts.has(field) && (isNew || field === 'id'))
    .map(({ field, label }) =>
      field === 'id'
        ? `, ${field}: is empty; give the short name the row is known by.`
        : `, ${field}: is empty; a new row needs it, so fill in ${label.toLowerCase()}.`,
    );
}
