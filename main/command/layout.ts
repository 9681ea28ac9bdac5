/** Plain text for a terminal, no line wider than this. */
export const WIDTH = 100;

/**
 * Rows as aligned columns, two spaces between them and `indent` before. The last column is wrapped under itself where
 * it would be too wide.
 */
export function columns(rows: readonly (readonly string[])[], indent = 2): string[] {
  const count = Math.max(0, ...rows.map((row) => row.length));
  const widths = Array.from({ length: count - 1 }, (_, at) => Math.max(0, ...rows.map((row) => row[at]?.length ?? 0)));
  const margin = indent + widths.reduce((sum, width) => sum + width + 2, 0);
  return rows.flatMap((row) => {
    const head = widths.map((width, at) => (row[at] ?? '').padEnd(width + 2)).join('');
    const [first = '', ...more] = wrapped(row[count - 1] ?? '', WIDTH - margin);
    return [`${' '.repeat(indent)}${head}${first}`.trimEnd(), ...more.map((line) => `${' '.repeat(margin)}${line}`)];
  });
}

/** Text cut into lines at spaces; a word wider than a line is left whole. */
export function wrapped(text: string, width: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= width) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

/** A section: its title and, indented, its lines, or what to say when there are none. */
export function section(title: string, lines: readonly string[], none: string): string {
  return [title, ...(lines.length > 0 ? lines : [`  ${none}`])].join('\n');
}
