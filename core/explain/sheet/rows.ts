import type { SheetRow } from '../../contract';
import type { ToolLeft } from '../../night';
import { type IfStops, type Operation, type Plan, type PlannedRun, type RunNeed, runsOf, type Shop } from '../../shop';
import { clockOn, dayText } from '../../time';
import { meets, type SheetSpan, timeOn } from './span';

/** A run of the sheet, its place in the queue still to be counted. */
export type Queued = SheetRow & { readonly isRunning: boolean };

const IF_STOPS: Readonly<Record<IfStops, string>> = {
  skip: 'Skip it, next pallet',
  leave: 'Leave it standing',
  call: 'Call who is on duty',
};

/** Every run with some of its time in the span, in order of start. `toolsLeft` is by run. */
export function rowsIn(
  shop: Shop,
  plan: Plan,
  span: SheetSpan,
  toolsLeft: Readonly<Record<string, ToolLeft>>,
): Queued[] {
  const needs = new Map(runsOf(shop).map((need) => [need.id, need]));
  return plan.runs
    .filter((planned) => meets(planned, span))
    .sort((a, b) => a.start - b.start || (a.run < b.run ? -1 : 1))
    .flatMap((planned) => {
      const need = needs.get(planned.run);
      return need === undefined ? [] : [rowOf(planned, need, span, toolsLeft[planned.run])];
    });
}

function rowOf(planned: PlannedRun, need: RunNeed, span: SheetSpan, left: ToolLeft | undefined): Queued {
  const { job, operation } = need;
  return {
    isRunning: planned.start < span.start,
    place: null,
    machine: planned.machine,
    job: job.id,
    jobName: job.name,
    operation: operation.id,
    operationName: operation.name,
    parts: need.parts,
    program: operation.program,
    revision: operation.revision,
    pallet: planned.pallet,
    start: timeOn(span, planned.start),
    end: timeOn(span, planned.end),
    isAlone: span.alone !== null && meets(planned, span.alone),
    tool: left === undefined ? null : { id: left.tool, minutes: Math.floor(left.minutes) },
    measure: operation.measure,
    ifStops: IF_STOPS[operation.ifStops],
    correction: correctionText(operation),
    spareBlanks: job.spareBlanks,
  };
}

function correctionText({ correction }: Operation): string {
  if (correction === null) return '';
  const { text, why, at } = correction;
  // Without the weekday: a correction may be months old.
  const day = dayText(clockOn('UTC', at), 0).slice(4);
  return `${day}: ${text}${why === '' ? '' : ` (${why})`}`;
}

/** The rows of these machines with their places counted: what runs already has none. */
export function queueOf(rows: readonly Queued[], machines: ReadonlySet<string>): SheetRow[] {
  let waiting = 0;
  return rows
    .filter((row) => machines.has(row.machine))
    .map(({ isRunning, ...row }) => ({ ...row, place: isRunning ? null : ++waiting }));
}
