/** An id like this one that no row has yet: its number counted up, or a number put behind it. */
export function nextId(like: string, taken: readonly string[]): string {
  const match = /^(.*?)(\d+)$/.exec(like);
  const stem = match?.[1] ?? `${like}-`;
  const digits = match?.[2] ?? '1';
  for (let number = Number(digits) + 1; ; number++) {
    const id = `${stem}${String(number).padStart(digits.length, '0')}`;
    if (!taken.includes(id)) return id;
  }
}
