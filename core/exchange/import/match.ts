import { unguarded } from '../csv';
import type { ImportColumn } from './column';
import type { ImportCells, TextRow } from './reading';

/** Header words compare by their letters and figures alone. */
function bare(words: string): string {
  return words.toLowerCase().replace(/[^\p{L}\p{N}]/gu, '');
}

function columnNamed(head: string, columns: readonly ImportColumn[]): ImportColumn | undefined {
  const wanted = bare(head);
  if (wanted === '') return undefined;
  return columns.find(({ field, label, names }) => [field, label, ...names].some((name) => bare(name) === wanted));
}

/** Which columns there are in a spreadsheet: by its header, by the order of the table, or as was said. */
export function matchColumns(
  given: ImportCells,
  columns: readonly ImportColumn[],
): { header: boolean; fields: readonly (string | null)[] } {
  const first = (given.cells[0] ?? []).filter((cell) => cell.trim() !== '');
  const known = first.filter((head) => columnNamed(head, columns) !== undefined);
  const header = given.header ?? (first.length > 0 && known.length * 2 >= first.length);
  const width = given.cells.reduce((most, row) => Math.max(most, row.length), 0);
  if (given.columns !== null) {
    const said = given.columns;
    return { header, fields: Array.from({ length: width }, (_, at) => said[at] ?? null) };
  }
  const taken = new Set<string>();
  const fields = Array.from({ length: width }, (_, at) => {
    const found = header ? columnNamed(given.cells[0]?.[at] ?? '', columns) : columns[at];
    if (found === undefined || taken.has(found.field)) return null;
    taken.add(found.field);
    return found.field;
  });
  return { header, fields };
}

/** The rows with something in a column that is taken in. */
export function textRows(
  cells: readonly (readonly string[])[],
  header: boolean,
  fields: readonly (string | null)[],
): TextRow[] {
  return cells.flatMap((row, at): TextRow[] => {
    if (header && at === 0) return [];
    const texts = new Map<string, string>();
    for (const [i, field] of fields.entries()) {
      const text = unguarded((row[i] ?? '').trim());
      if (field !== null && text !== '') texts.set(field, text);
    }
    return texts.size === 0 ? [] : [{ row: at + 1, texts }];
  });
}
