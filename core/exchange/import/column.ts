import type { Cell } from './cell';

/** One column that a table can have in a spreadsheet. */
export interface ImportColumn {
  /** Its name in files we write: the field's own name. */
  readonly field: string;
  /** As the screens call it. */
  readonly label: string;
  /** What else heads such a column. */
  readonly names: readonly string[];
  /** Where the value stands in its record. */
  readonly path: readonly string[];
  /** A value at `path` and its text. */
  readonly cell: Cell<unknown>;
  /** A new row cannot do without it. */
  readonly needed: boolean;
}

interface More {
  readonly names?: readonly string[];
  readonly path?: readonly string[];
  readonly needed?: boolean;
}

export function column(field: string, label: string, cell: Cell<unknown>, more: More = {}): ImportColumn {
  return { field, label, cell, names: more.names ?? [], path: more.path ?? [field], needed: more.needed ?? false };
}

/** A record as it is gathered from cells; checked as a row of its table at the end. */
export type Draft = { readonly [field: string]: unknown };

/** The record with `value` at `path`; records on the way that are not there are begun. */
export function withValue(draft: Draft, path: readonly string[], value: unknown): Draft {
  const [step, ...rest] = path;
  if (step === undefined) return draft;
  return { ...draft, [step]: rest.length === 0 ? value : withValue((draft[step] ?? {}) as Draft, rest, value) };
}

/** The text of a row's value; none where the record around it is not there. */
export function textAt(row: object, { path, cell }: ImportColumn): string {
  let value: unknown = row;
  for (const step of path) value = (value as Draft | null | undefined)?.[step];
  return value === undefined ? '' : cell.write(value);
}
