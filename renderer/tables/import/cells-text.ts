import Papa from 'papaparse';
import { type Parsed, puzzled, understood } from '../parse';

export type Delimiter = ',' | ';' | '\t';

/** What may part the cells of a row, in the order in which it is looked for. */
const DELIMITERS: readonly Delimiter[] = ['\t', ';', ','];

export interface Cells {
  readonly cells: readonly (readonly string[])[];
  readonly delimiter: Delimiter;
  /** What keeps the text from being read as it was meant, or null. */
  readonly wrong: string | null;
}

/** A paste is a block of cells, and no text for one field, if it has a tab or a line break in it. */
export function isBlock(text: string): boolean {
  // Spreadsheets put a line break behind a single cell too.
  return /[\t\r\n]/.test(text.replace(/\r?\n$/, ''));
}

/** Text as cells: CSV (RFC 4180) or rows from a spreadsheet; the delimiter is looked for if none is said. */
export function cellsOf(text: string, said: Delimiter | null): Cells {
  const body = text.replace(/^\uFEFF/, '');
  const { data, errors, meta } = Papa.parse<string[]>(body, {
    delimiter: said ?? (body.includes('\t') ? '\t' : ''),
    delimitersToGuess: [...DELIMITERS],
  });
  const delimiter = DELIMITERS.find((one) => one === meta.delimiter) ?? ',';
  const quote = errors.find(({ type }) => type === 'Quotes');
  const wrong =
    quote === undefined
      ? null
      : `A quote in row ${(quote.row ?? 0) + 1} is not closed where its cell ends, so rows may have run together. Mend it there, then bring the rows again.`;
  return { cells: data, delimiter, wrong };
}

/** A file's bytes as text, or why they are none that can be read without guessing. */
export function textOf(name: string, bytes: Uint8Array): Parsed<string> {
  if (bytes.length === 0) return puzzled(`${name} is empty. Choose another file.`);
  if (bytes[0] === 0x50 && bytes[1] === 0x4b) {
    return puzzled(
      `${name} is a workbook, not CSV. Save the spreadsheet as CSV in UTF-8, or copy its rows and paste them here.`,
    );
  }
  const isUtf16 = bytes[0] === 0xff && bytes[1] === 0xfe;
  try {
    const text = new TextDecoder(isUtf16 ? 'utf-16le' : 'utf-8', { fatal: true }).decode(bytes);
    if (text.includes('\0')) return puzzled(`${name} holds no text. Choose a CSV file.`);
    return text.trim() === '' ? puzzled(`${name} is empty. Choose another file.`) : understood(text);
  } catch {
    return puzzled(
      `${name} is not written in UTF-8, so letters such as ä or é could come in wrong. Save it as CSV in UTF-8, or copy its rows and paste them here.`,
    );
  }
}
