import { cutMinutes } from '../../../core/shop';
import { clockText, type Minute } from '../../../core/time';
import { jobOf, machineName, type PlanIndex } from '../plan-index';
import { whenText } from '../words';

/** A run at another place: on `machine`, cutting from `start`. */
export interface Move {
  readonly run: string;
  readonly machine: string;
  readonly start: Minute;
}

/** What would come of a move, given back by whoever can plan. */
export interface Trial {
  readonly move: Move;
  readonly legal: boolean;
  /** Short sentences: what turns late, what goes dry, or why it cannot be. */
  readonly say: readonly string[];
  /** Where the run would come to stand; null if nowhere. */
  readonly placed: { readonly machine: string; readonly start: Minute; readonly end: Minute } | null;
}

/** A run that has been taken up and not yet put down. */
export interface Carried {
  /** Where it was taken up. */
  readonly from: Move;
  /** When its cut ends there. */
  readonly fromEnd: Minute;
  /** Where it is held now. */
  readonly move: Move;
  /** When its cut would end there. */
  readonly end: Minute;
  /** Why it cannot stand there whatever the rest of the plan does; null if it may be tried. */
  readonly refusal: string | null;
}

/** Runs are moved in steps of this many minutes. */
export const STEP_MIN = 5;

export function sameMove(a: Move, b: Move): boolean {
  return a.run === b.run && a.machine === b.machine && a.start === b.start;
}

/** Takes up a run of the plan where it stands; null if the plan does not hold it. */
export function takeUp(index: PlanIndex, run: string): Carried | null {
  const planned = index.runs.get(run);
  if (planned === undefined) return null;
  const from = { run, machine: planned.machine, start: planned.start };
  return { from, fromEnd: planned.end, move: from, end: planned.end, refusal: settledBecause(index, run) };
}

/** Holds the run elsewhere: its start on a whole step, unless it is where it was taken up. */
export function carryTo(index: PlanIndex, carried: Carried, machine: string, start: Minute): Carried {
  const { from, fromEnd } = carried;
  const close = machine === from.machine && Math.abs(start - from.start) < STEP_MIN / 2;
  const move = { run: from.run, machine, start: close ? from.start : Math.round(start / STEP_MIN) * STEP_MIN };
  const end = move.start + lengthOn(index, carried, machine);
  return { from, fromEnd, move, end, refusal: refusalOf(index, move) };
}

/** Machines the run's operation names, in the order of the shop. */
export function machinesFor(index: PlanIndex, run: string): string[] {
  const named = new Set(index.needs.get(run)?.operation.machines.map(({ machine }) => machine));
  return index.view.shop.machines.flatMap(({ id, inUse }) => (inUse && named.has(id) ? [id] : []));
}

/** `J-104 op 10 run 2`. */
export function runName(index: PlanIndex, run: string): string {
  const need = index.needs.get(run);
  return need === undefined ? run : `${jobOf(run)} op ${need.operation.id} run ${need.number}`;
}

/** `M2 Mill 2, Wed 14:05 to 18:05`. */
export function moveText(index: PlanIndex, { move, end }: Pick<Carried, 'move' | 'end'>): string {
  const from = whenText(index, move.start);
  const to = whenText(index, end);
  const [day = ''] = to.split(' ');
  return `${machineName(index, move.machine)}, ${from} to ${from.startsWith(day) ? clockText(index.clock, end) : to}`;
}

/** Minutes it would cut there: as planned on its own machine, by the operation's cycle on another. */
function lengthOn(index: PlanIndex, { from, fromEnd }: Carried, machine: string): number {
  const need = index.needs.get(from.run);
  const own = fromEnd - from.start;
  const cycle = need?.operation.machines.find((option) => option.machine === machine)?.cycle;
  return machine === from.machine || need === undefined || cycle === undefined ? own : cutMinutes(need, cycle);
}

const SETTLED = {
  running: 'is running',
  finished: 'is finished',
  done: 'is done',
} as const;

/** What has begun no longer moves. */
function settledBecause(index: PlanIndex, run: string): string | null {
  const state = index.floor.get(run)?.state;
  if (state === undefined || state === 'locked' || state === 'loaded') return null;
  return `${runName(index, run)} ${SETTLED[state]} and no longer moves.`;
}

function refusalOf(index: PlanIndex, { run, machine, start }: Move): string | null {
  const settled = settledBecause(index, run);
  if (settled !== null) return settled;
  const able = machinesFor(index, run);
  if (!able.includes(machine)) {
    return `${runName(index, run)} does not name ${machine}: it runs on ${able.join(', ')}.`;
  }
  const { now, horizon } = index.view.plan;
  if (start < now) return `The plan begins at ${whenText(index, now)}; nothing starts before it.`;
  if (start >= horizon) return `The plan ends at ${whenText(index, horizon)}; nothing starts after it.`;
  return null;
}
