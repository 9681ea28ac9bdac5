/** What the text of a cell means, or one sentence without its place: what is wrong, and what to write instead. */
export type CellRead<V> = { readonly ok: true; readonly value: V } | { readonly ok: false; readonly say: string };

/** What reading a cell depends on and may find out. */
export interface Reading {
  /** `HH:MM` for a date without a time of day. */
  readonly timeOfDay: string;
  /** Dates without a time of day that were read so far. */
  timeless: number;
}

/**
 * How a value stands in one cell of a spreadsheet. `read` gets text without space at its ends and never an empty one: an empty
 * cell says nothing. What is written for a value is read back as it; the empty text is only written for the value that
 * a new row has anyway.
 */
export interface Cell<V> {
  read(text: string, reading: Reading): CellRead<V>;
  write(value: V): string;
}

export function means<V>(value: V): CellRead<V> {
  return { ok: true, value };
}

export function unclear<V>(say: string): CellRead<V> {
  return { ok: false, say };
}

/** A cell's text for a sentence, not longer than people read. */
export function quoted(text: string): string {
  return JSON.stringify(text.length > 40 ? `${text.slice(0, 37)}...` : text);
}

/** The JSON in a cell, or undefined: for what no shorter writing brings back. */
export function jsonIn(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return undefined;
  }
}

/** `short` if it is read back as the value, the value as JSON otherwise. */
export function shortOrJson<V>(value: V, short: string, read: (text: string) => CellRead<V>): string {
  if (short === short.trim() && short !== '') {
    const back = read(short);
    if (back.ok && JSON.stringify(back.value) === JSON.stringify(value)) return short;
  }
  return JSON.stringify(value);
}
