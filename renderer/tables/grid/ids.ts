/** An id for a copy that says what it was copied from: `J-104-2`, and of that one `J-104-3`. */
export function copyId(of: string, taken: readonly string[]): string {
  // An id has at most 40 letters.
  const stem = (/^(.+-\d+)-\d+$/.exec(of)?.[1] ?? of).slice(0, 36);
  for (let number = 2; ; number++) {
    const id = `${stem}-${number}`;
    if (!taken.includes(id)) return id;
  }
}

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
