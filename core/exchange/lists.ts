import type { reportOn } from '../explain';
import { type Plan, runsOf, type Shop, type TableName } from '../shop';
import { localAt, type Minute } from '../time';
import { type CsvCell, writeCsv } from './csv';
import { writeTable } from './import';

/** Lists of a plan. */
export const PLAN_LISTS = ['runs', 'attendances', 'rounds', 'shift-hours'] as const;
export type PlanList = (typeof PLAN_LISTS)[number];
/** Every list that can be had as CSV: the shop's tables, which an import takes back, its floor, and those of a plan. */
export type ListName = TableName | 'floor' | PlanList;

/** What the lists of a plan are made from. */
export interface PlanToList {
  readonly plan: Plan;
  readonly shop: Shop;
  readonly report: ReturnType<typeof reportOn>;
}

export function isPlanList(list: ListName): list is PlanList {
  return (PLAN_LISTS as readonly string[]).includes(list);
}

/** A table of the shop, or its floor, as CSV with a header. */
export function writeShopList(shop: Shop, list: TableName | 'floor'): string {
  return writeCsv(list === 'floor' ? floorRows(shop) : writeTable(shop, list));
}

/** A list of a plan as CSV with a header: local times as `2026-11-27 16:00`, lengths in minutes. */
export function writePlanList(of: PlanToList, list: PlanList): string {
  return writeCsv(PLAN_ROWS[list](of));
}

function floorRows({ floor }: Shop): CsvCell[][] {
  const rows = floor.map((entry) => [
    entry.run,
    entry.state,
    entry.machine ?? '',
    entry.pallet ?? '',
    momentOf(entry.start),
    momentOf(entry.end),
    entry.after ?? '',
  ]);
  return [['run', 'state', 'machine', 'pallet', 'start', 'end', 'after'], ...rows];
}

function momentOf(local: string | null): string {
  return local?.replace('T', ' ') ?? '';
}

const PLAN_ROWS: { readonly [L in PlanList]: (of: PlanToList) => CsvCell[][] } = {
  runs: runRows,
  attendances: attendanceRows,
  rounds: roundRows,
  'shift-hours': shiftRows,
};

/** Local time of a minute of the plan. */
function timesOf({ plan }: PlanToList): (minute: Minute) => string {
  return (minute) => momentOf(localAt(plan.clock, minute));
}

function runRows(of: PlanToList): CsvCell[][] {
  const { plan, shop } = of;
  const at = timesOf(of);
  const needs = new Map(runsOf(shop).map((need) => [need.id, need]));
  const work = (run: string): CsvCell[] => {
    const need = needs.get(run);
    return [run, need?.job.id ?? '', need?.operation.id ?? '', need?.parts ?? ''];
  };
  const planned = plan.runs.map(({ run, machine, pallet, load, start, end, unload }) => [
    ...work(run),
    machine,
    pallet ?? '',
    load === null ? '' : at(load.start),
    at(start),
    at(end),
    end - start,
    unload === null ? '' : at(unload.end),
    '',
  ]);
  const left = plan.left.map(({ run, why }) => [...work(run), '', '', '', '', '', '', '', why]);
  const head = ['run', 'job', 'op', 'parts', 'machine', 'pallet', 'load', 'start', 'end', 'minutes', 'off', 'no room'];
  return [head, ...planned, ...left];
}

function attendanceRows(of: PlanToList): CsvCell[][] {
  const at = timesOf(of);
  const rows = of.report.rounds.flatMap(({ person, stops }, round) =>
    stops.map((stop) => [
      round + 1,
      person,
      at(stop.start),
      at(stop.end),
      stop.end - stop.start,
      at(stop.latest),
      stop.role,
      stop.machine,
      stop.pallet ?? '',
      stop.run ?? '',
      stop.say,
    ]),
  );
  const head = ['round', 'person', 'from', 'to', 'minutes', 'begin by', 'what', 'machine', 'pallet', 'run', 'words'];
  return [head, ...rows];
}

function roundRows(of: PlanToList): CsvCell[][] {
  const at = timesOf(of);
  const rows = of.report.rounds.map(({ person, start, end, stops }, round) => [
    round + 1,
    person,
    at(start),
    at(end),
    end - start,
    stops.length,
    stops.map(({ machine }) => machine).join('; '),
  ]);
  return [['round', 'person', 'from', 'to', 'minutes', 'stops', 'machines'], ...rows];
}

function shiftRows(of: PlanToList): CsvCell[][] {
  const at = timesOf(of);
  const rows = of.report.shifts.map((row) => [
    row.shift,
    row.machine,
    at(row.start),
    at(row.end),
    row.end - row.start,
    row.cutAttended,
    row.cutUnattended,
    row.handWork,
    row.waiting,
    row.dry,
    row.off,
    row.nothingDue,
  ]);
  const head = ['shift', 'machine', 'from', 'to', 'minutes', 'cut attended', 'cut unattended', 'hand work'];
  return [[...head, 'waiting', 'dry', 'off', 'nothing due'], ...rows];
}
