/** Something wrong with what was given, said so that its owner can mend it. */
export interface Fault {
  /** For tests and programs; people read `say`. */
  readonly code: string;
  /** Where in the shop, as keys and indices: `['jobs', 3, 'route', 0, 'fixture']`. Empty: the whole. */
  readonly at: readonly (string | number)[];
  /** One sentence or two: the place in the shop's words, what is wrong, and what to do. */
  readonly say: string;
  /** An error stops planning; a warning does not. */
  readonly level: 'error' | 'warning';
}

/** A value, or what is wrong. */
export type Result<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly faults: readonly Fault[] };

export function refuse<T>(...faults: Fault[]): Result<T> {
  return { ok: false, faults };
}

export function accept<T>(value: T): Result<T> {
  return { ok: true, value };
}
