/** What typed text means, or one sentence on what to type instead. */
export type Parsed<V> = { readonly ok: true; readonly value: V } | { readonly ok: false; readonly say: string };

export type Parse<V> = (text: string) => Parsed<V>;

export function understood<V>(value: V): Parsed<V> {
  return { ok: true, value };
}

export function puzzled<V>(say: string): Parsed<V> {
  return { ok: false, say };
}
