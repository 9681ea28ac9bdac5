/** Plain text for a terminal, no line wider than this. */
export const WIDTH = 100;

export interface Column {
  readonly title: string;
  readonly width: number;
  /** Numbers stand at the right of their column. */
  readonly align: 'left' | 'right';
}

/** One line of aligned cells, two spaces between columns; a cell too long for its column is cut. */
export function line(columns: readonly Column[], cells: readonly string[]): string {
  return columns
    .map(({ width, align }, at) => {
      const cell = (cells[at] ?? '').slice(0, width);
      return align === 'left' ? cell.padEnd(width) : cell.padStart(width);
    })
    .join('  ')
    .trimEnd();
}

export function heading(columns: readonly Column[]): string {
  const titles = columns.map(({ title }) => title);
  const rules = columns.map(({ width }) => '-'.repeat(width));
  return `${line(columns, titles)}\n${line(columns, rules)}`;
}

/** A number with so many decimals, or a dash where there is none. */
export function figure(value: number | null, decimals: number): string {
  return value === null ? '-' : value.toFixed(decimals);
}
