import { type Shop, type TableName, tableSchemas } from './schema';

/** A row of one of a shop's lists, by what names it: its id, or the run of an entry of the floor. */
interface Row {
  readonly list: ListName;
  readonly id: string;
}

type ListName = TableName | 'floor';

const LISTS = [...(Object.keys(tableSchemas) as TableName[]), 'floor'] as const satisfies readonly ListName[];

/** How lists are called when one row of them is meant. */
const ROW_WORDS: Readonly<Record<ListName, string>> = {
  shifts: 'Shift',
  people: 'Person',
  cells: 'Cell',
  machines: 'Machine',
  pallets: 'Pallet',
  tools: 'Tool',
  jobs: 'Job',
  templates: 'Template',
  floor: 'Hold of',
};

/**
 * `mine` with what `theirs` changed since both were `base`: rows added, changed and taken out, and settings. Where both
 * changed the same row or setting, theirs counts. A copy of the shop is adopted so.
 */
export function withDifferences(mine: Shop, base: Shop, theirs: Shop): Shop {
  const merged: Record<string, unknown> = { ...mine };
  for (const key of settingsOf(base)) if (!same(base[key], theirs[key])) merged[key] = theirs[key];
  for (const list of LISTS) merged[list] = mergedList(list, mine, base, theirs);
  return merged as Shop;
}

/** What `after` has other than `before`, a sentence each: `Machine M3: places 2 → 4`. */
export function differenceSentences(before: Shop, after: Shop): string[] {
  const settings = settingsOf(before).flatMap((key) =>
    fieldSentences(`Shop: ${wordsOf(key)}`, before[key], after[key]),
  );
  return [...LISTS.flatMap((list) => listSentences(list, before, after)), ...settings];
}

function settingsOf(shop: Shop): (keyof Shop)[] {
  return (Object.keys(shop) as (keyof Shop)[]).filter((key) => !(LISTS as readonly string[]).includes(key));
}

function rowsOf(shop: Shop, list: ListName): ReadonlyMap<string, object> {
  return new Map(shop[list].map((row) => ['id' in row ? row.id : row.run, row]));
}

function mergedList(list: ListName, mine: Shop, base: Shop, theirs: Shop): object[] {
  const [own, old, other] = [rowsOf(mine, list), rowsOf(base, list), rowsOf(theirs, list)];
  const kept = [...own].flatMap(([id, row]) => {
    const changed = other.get(id);
    if (changed === undefined) return old.has(id) ? [] : [row];
    return [same(old.get(id), changed) ? row : changed];
  });
  const added = [...other].flatMap(([id, row]) => (own.has(id) || same(old.get(id), row) ? [] : [row]));
  return [...kept, ...added];
}

function listSentences(list: ListName, before: Shop, after: Shop): string[] {
  const [old, now] = [rowsOf(before, list), rowsOf(after, list)];
  const say = (row: Row) => `${ROW_WORDS[row.list]} ${row.id}`;
  return [
    ...[...old].flatMap(([id, row]) => {
      const changed = now.get(id);
      if (changed === undefined) return [`${say({ list, id })} taken out`];
      return fieldSentences(say({ list, id }), row, changed);
    }),
    ...[...now].flatMap(([id]) => (old.has(id) ? [] : [`${say({ list, id })} added`])),
  ];
}

/** Objects are gone into field by field, lists only named: what moved within one has no short words. */
function fieldSentences(at: string, before: unknown, after: unknown): string[] {
  if (same(before, after)) return [];
  if (isRecord(before) && isRecord(after)) {
    const keys = [...new Set([...Object.keys(before), ...Object.keys(after)])];
    const sentences = keys.flatMap((key) =>
      fieldSentences(`${at}${at.includes(':') ? ',' : ':'} ${wordsOf(key)}`, before[key], after[key]),
    );
    return sentences;
  }
  if (Array.isArray(before) && Array.isArray(after)) return [listSentence(at, before, after)];
  return [`${at} ${valueWords(before)} → ${valueWords(after)}`];
}

function listSentence(at: string, before: readonly unknown[], after: readonly unknown[]): string {
  const isPlain = [...before, ...after].every((value) => typeof value !== 'object');
  if (isPlain) return `${at} ${before.join(', ') || 'none'} → ${after.join(', ') || 'none'}`;
  return before.length === after.length ? `${at} changed` : `${at} ${before.length} → ${after.length} entries`;
}

function valueWords(value: unknown): string {
  if (value === null || value === undefined || value === '') return 'none';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  return isRecord(value) || Array.isArray(value) ? 'given' : String(value);
}

/** `ratePerHour` -> `rate per hour`. */
function wordsOf(key: string): string {
  return key.replace(/([A-Z])/g, (letter) => ` ${letter.toLowerCase()}`);
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

/** Both sides come through the same schema, which gives fields in one order. */
function same(a: unknown, b: unknown): boolean {
  return JSON.stringify(a) === JSON.stringify(b);
}
