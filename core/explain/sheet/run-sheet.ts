import type { HomeCheck, PlanView, RunSheet, SheetPage } from '../../contract';
import { toolLedger } from '../../night';
import type { Machine, Shop } from '../../shop';
import { clockText, dayText, minuteOf } from '../../time';
import { careAt, morningAt, peopleOn, roundsAt } from './attendance';
import { type Queued, queueOf, rowsIn } from './rows';
import { type SheetSpan, spanOf, timeOn, timeText } from './span';

/** The plan a sheet is of. */
export type SheetPlan = Pick<PlanView, 'id' | 'plan' | 'shop' | 'report' | 'released'>;

/** Common practice; the standards and the maker's manual have the last word. */
const CAUTION =
  'This plan is no approval to run unattended. Reach into a machine, change a tool or dress a wheel only at a safe ' +
  'stop, by the lockout procedure. After a stop, find the cause before you start again. The machine maker’s manual, ' +
  'the site’s fire rules and qualified people decide.';

/**
 * The run sheet of a stored plan: a page for each machine in use, one for each cell, and one for the machines that
 * share none. `checks` is what to see to before going home. The plan must be legal for the shop.
 */
export function runSheet(view: SheetPlan, checks: readonly HomeCheck[]): RunSheet {
  const { id, plan, shop, report, released } = view;
  const span = spanOf(view);
  const rows = rowsIn(shop, plan, span, toolLedger(shop, plan).minutesLeftAfter);
  const inUse = shop.machines.filter((machine) => machine.inUse);
  const seen = checks.map(({ say, at }) => ({ say, by: at === null ? null : timeOn(span, at) }));
  return {
    shop: shop.name,
    plan: id,
    standing: released === null ? 'not released' : `released ${releaseText(view, released.at)}`,
    isReleased: released !== null,
    date: dayText(plan.clock, span.start),
    from: timeOn(span, span.start),
    to: timeOn(span, span.end),
    aloneFrom: span.alone === null ? null : timeOn(span, Math.max(span.alone.start, span.start)),
    people: peopleOn(shop, report.people, span),
    caution: CAUTION,
    pages: [
      ...inUse.map((machine) => machinePage(view, span, rows, machine)),
      ...groupsOf(shop, inUse).map((group) => ({ ...togetherPage(view, span, rows, group), checks: seen })),
    ],
  };
}

function releaseText({ plan }: SheetPlan, at: string): string {
  const minute = minuteOf(plan.clock, at);
  return `${dayText(plan.clock, minute)} ${clockText(plan.clock, minute)}`;
}

function machinePage(
  { shop, report }: SheetPlan,
  span: SheetSpan,
  rows: readonly Queued[],
  machine: Machine,
): SheetPage {
  const only = new Set([machine.id]);
  return {
    of: 'machine',
    title: machine.id,
    name: machine.name,
    rows: queueOf(rows, only),
    stands: standsText(report, span, machine.id),
    care: careAt(shop, report.rounds, span, only),
    rounds: [],
    checks: [],
    morning: morningAt(shop, report.rounds, span, only),
  };
}

/** Why the machine stands in the last minute of the span; null where it does not. */
function standsText(report: SheetPlan['report'], span: SheetSpan, machine: string): string | null {
  const gaps = report.machines.find((one) => one.machine === machine)?.gaps ?? [];
  const last = gaps.find((gap) => gap.start < span.end && gap.end >= span.end);
  if (last === undefined) return null;
  return last.start <= span.start ? last.say : `From ${timeText(timeOn(span, last.start))}: ${lowered(last.say)}`;
}

/** A sentence after a colon. */
function lowered(say: string): string {
  return say.charAt(0).toLowerCase() + say.slice(1);
}

interface Group {
  readonly title: string;
  readonly name: string;
  readonly machines: ReadonlySet<string>;
}

/** The cells with a machine in use, then the machines that share none, called by the shop's name. */
function groupsOf(shop: Shop, inUse: readonly Machine[]): Group[] {
  const of = (cell: string | null): Set<string> =>
    new Set(inUse.filter((machine) => machine.cell === cell).map(({ id }) => id));
  const cells = shop.cells.map(({ id, name }) => ({ title: id, name, machines: of(id) }));
  const rest = {
    title: shop.name,
    name: shop.cells.length === 0 ? '' : 'machines outside the cells',
    machines: of(null),
  };
  return [...cells, rest].filter(({ machines }) => machines.size > 0);
}

function togetherPage(
  { shop, report }: SheetPlan,
  span: SheetSpan,
  rows: readonly Queued[],
  { title, name, machines }: Group,
): Omit<SheetPage, 'checks'> {
  return {
    of: 'together',
    title,
    name,
    rows: queueOf(rows, machines),
    stands: null,
    care: careAt(shop, report.rounds, span, machines),
    rounds: roundsAt(shop, report.rounds, span, machines),
    morning: morningAt(shop, report.rounds, span, machines),
  };
}
