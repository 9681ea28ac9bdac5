/** A cell of a list: numbers stay numbers wherever the list is opened. */
export type CsvCell = string | number;

/** What spreadsheets may take for a formula: https://owasp.org/www-community/attacks/CSV_Injection */
const FORMULA = /^'*[=+\-@\t\r]/;
const GUARDED = /^'+[=+\-@\t\r]/;

/**
 * Rows as CSV: RFC 4180, with a byte order mark by which spreadsheets know UTF-8. Quotes alone do not keep a spreadsheet
 * from reckoning a text that begins like a formula, so such a text gets an apostrophe in front, which {@link unguarded}
 * takes off again.
 */
export function writeCsv(rows: readonly (readonly CsvCell[])[]): string {
  return `\uFEFF${rows.map((row) => `${row.map(cellText).join(',')}\r\n`).join('')}`;
}

function cellText(cell: CsvCell): string {
  if (typeof cell === 'number') return String(cell);
  const text = FORMULA.test(cell) ? `'${cell}` : cell;
  return /[",\r\n]|^\s|\s$/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

/** A cell's text without the apostrophe that {@link writeCsv} puts before what begins like a formula. */
export function unguarded(text: string): string {
  return GUARDED.test(text) ? text.slice(1) : text;
}
