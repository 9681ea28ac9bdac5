import { type Job, parseRow, type Shop, type Template } from '../../shop';
import { quoted, type Reading } from './cell';
import { type Draft, withValue } from './column';
import { missing, nameIn, withTexts } from './read-plant';
import type { ImportRow, RowPut, RowsRead, RowsToRead, TextRow } from './reading';
import {
  cycleColumn,
  headColumns,
  machineColumn,
  operationColumns,
  type RouteTable,
  routeColumns,
} from './route-columns';

/** The rows of one job or template, in their order. */
interface Group {
  readonly id: string;
  readonly rows: TextRow[];
  readonly faults: Map<number, string[]>;
}

/**
 * Rows of jobs or templates: those of the same id gather into its route, an operation each; an operation without an id
 * goes on with the one above.
 * Of a record that is there only the columns given change, and operations that the spreadsheet does not name stay.
 */
export function readRouteRows(table: RouteTable, { shop, rows }: RowsToRead, reading: Reading): RowsRead {
  const there = new Map<string, Job | Template>(shop[table].map((row) => [row.id, row]));
  const groups = new Map<string, Group>();
  const orphans: ImportRow[] = [];
  let last = null as Group | null;
  for (const text of rows) {
    const id = nameIn(text, 'id') ?? (saysOperation(text) ? last?.id : undefined);
    if (id === undefined) {
      const faults = missing(text.texts, headColumns[table], false).map((say) => `Row ${text.row}${say}`);
      orphans.push({ row: text.row, faults, replaces: false });
      continue;
    }
    last = groups.get(id) ?? { id, rows: [], faults: new Map() };
    last.rows.push(text);
    groups.set(id, last);
  }
  const read: ImportRow[] = [...orphans];
  const puts: RowPut[] = [];
  for (const group of groups.values()) {
    const before = there.get(group.id);
    const draft = recordFrom(table, shop, group, before, reading);
    if (group.faults.size === 0) {
      const parsed = parseRow(table, draft);
      if (!parsed.ok) for (const fault of parsed.faults) blame(group, group.rows[0]!, `: ${fault.say}`);
    }
    const [wrong] = group.faults.keys();
    for (const { row } of group.rows) {
      const own = group.faults.get(row) ?? [];
      const together = `Row ${row}: belongs to ${group.id}, which waits until row ${wrong} is right.`;
      read.push({
        row,
        faults: own.length > 0 || wrong === undefined ? own : [together],
        replaces: before !== undefined,
      });
    }
    if (wrong === undefined) puts.push({ replaces: before === undefined ? null : group.id, row: draft });
  }
  return { rows: read.sort((a, b) => a.row - b.row), puts };
}

function saysOperation({ texts }: TextRow): boolean {
  return routeColumns.some(({ field }) => texts.has(field));
}

/** `say` begins behind the row's number: `, due: is empty`. */
function blame({ faults }: Group, { row }: TextRow, say: string): void {
  faults.set(row, [...(faults.get(row) ?? []), `Row ${row}${say}`]);
}

function recordFrom(
  table: RouteTable,
  shop: Shop,
  group: Group,
  before: Job | Template | undefined,
  reading: Reading,
): Draft {
  const [first] = group.rows as [TextRow, ...TextRow[]];
  const family = before === undefined ? familyOf(shop, group) : null;
  const begun: Draft =
    family === null ? {} : { route: family.route, weight: family.weight, suspectLimit: family.suspectLimit };
  let draft: Draft = withValue(before ?? begun, ['id'], group.id);
  const said = new Map<string, TextRow>();
  for (const text of group.rows) {
    for (const column of headColumns[table]) {
      const value = text.texts.get(column.field);
      const earlier = said.get(column.field);
      if (value === undefined || column.field === 'id') continue;
      if (earlier === undefined) said.set(column.field, text);
      else if (earlier.texts.get(column.field) !== value) {
        const other = quoted(earlier.texts.get(column.field) ?? '');
        blame(
          group,
          text,
          `, ${column.field}: differs from row ${earlier.row} of ${group.id}, which says ${other}; make them the same.`,
        );
      }
    }
    const head = withTexts(
      draft,
      text,
      headColumns[table].filter(({ field }) => said.get(field) === text),
      reading,
    );
    draft = head.draft;
    for (const say of head.wrong) blame(group, text, say);
  }
  if (before === undefined) {
    const all = new Map(group.rows.flatMap(({ texts }) => [...texts]));
    all.set('id', group.id);
    for (const say of missing(all, headColumns[table], true)) blame(group, first, say);
  }
  return withValue(draft, ['route'], routeFrom(group, draft, reading));
}

/** The template that a row of the group names by its id or name. */
function familyOf(shop: Shop, group: Group): Template | null {
  for (const text of group.rows) {
    const named = nameIn(text, 'family');
    if (named === undefined) continue;
    const template = shop.templates.find(({ id, name }) =>
      [id, name].some((one) => one.toLowerCase() === named.toLowerCase()),
    );
    if (template !== undefined) return template;
    blame(
      group,
      text,
      `, family: there is no family ${quoted(named)}; save a route as its template first, or give machine and cycle.`,
    );
  }
  return null;
}

function routeFrom(group: Group, draft: Draft, reading: Reading): readonly Draft[] {
  const before = (draft.route ?? []) as readonly Draft[];
  const named = group.rows.filter(saysOperation);
  const ids = new Set<string>();
  const operations = named.map((text, at) => {
    const id = nameIn(text, 'op') ?? String(before[at]?.id ?? nextId([...ids, ...before.map((one) => String(one.id))]));
    if (ids.has(id))
      blame(group, text, `, op: ${group.id} has operation ${id} in a row above already; give it another number.`);
    ids.add(id);
    return operationFrom(group, text, withValue(before.find((one) => one.id === id) ?? {}, ['id'], id), reading);
  });
  if (operations.length === 0 && before.length === 0 && group.faults.size === 0) {
    blame(group, group.rows[0]!, `: ${group.id} has no operation; give machine and cycle, or a family.`);
  }
  const isNamed = (one: Draft): boolean => ids.has(String(one.id));
  if (before.every(isNamed)) return operations;
  const kept = before.map((one) => operations.find(({ id }) => id === one.id) ?? one);
  return [...kept, ...operations.filter(({ id }) => before.every((one) => one.id !== id))];
}

/** The next operation number, in tens as is usual. */
function nextId(ids: readonly string[]): string {
  const highest = Math.max(0, ...ids.map((id) => Number.parseInt(id, 10) || 0));
  return String(Math.floor(highest / 10) * 10 + 10);
}

interface Choice {
  readonly machine: string;
  readonly cycle: number;
}

function operationFrom(group: Group, text: TextRow, before: Draft, reading: Reading): Draft {
  const { draft, wrong } = withTexts(before, text, operationColumns, reading);
  for (const say of wrong) blame(group, text, say);
  const choices = (before.machines ?? []) as readonly Choice[];
  const machineText = text.texts.get(machineColumn.field);
  const cycleText = text.texts.get(cycleColumn.field);
  if (machineText === undefined && cycleText === undefined) {
    if (choices.length === 0) blame(group, text, ', machine: is empty; give a machine and its cycle.');
    return draft;
  }
  const machines = machineText === undefined ? null : machineColumn.cell.read(machineText, reading);
  const cycles = cycleText === undefined ? null : cycleColumn.cell.read(cycleText, reading);
  if (machines?.ok === false) blame(group, text, `, machine: ${machines.say}.`);
  if (cycles?.ok === false) blame(group, text, `, cycle: ${cycles.say}.`);
  if (machines?.ok === false || cycles?.ok === false) return draft;
  const names = (machines?.value as string[] | undefined) ?? choices.map(({ machine }) => machine);
  const minutes = cycles?.value as number[] | undefined;
  const cycleOf = (machine: string, at: number): number | undefined => {
    if (minutes === undefined) return choices.find((choice) => choice.machine === machine)?.cycle;
    return minutes.length === 1 ? minutes[0] : minutes[at];
  };
  const found = names.map((machine, at) => ({ machine, cycle: cycleOf(machine, at) }));
  if (names.length === 0) blame(group, text, ', machine: is empty; name the machine the cycle is for.');
  else if (minutes !== undefined && minutes.length > 1 && minutes.length !== names.length) {
    blame(
      group,
      text,
      `, cycle: has ${minutes.length} cycles for ${names.length === 1 ? '1 machine' : `${names.length} machines`}; give one for all, or one for each in the same order.`,
    );
  } else if (found.some(({ cycle }) => cycle === undefined)) {
    blame(group, text, ', cycle: is empty; give the minutes of a full pallet, as 105 or 1:45.');
  }
  return withValue(draft, ['machines'], found);
}
