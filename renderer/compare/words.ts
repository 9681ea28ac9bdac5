import type { LateChange, PlanComparison, PlanRef, PlanSummary, RunPlace } from '../../core/contract';
import { lengthText } from '../../core/time';
import { showMoment } from '../tables';
import type { Choice } from './pair';

/** What a plan is called where it has no name of its own. */
export function planTitle({ id, name, made }: Pick<PlanSummary, 'id' | 'name' | 'made'>): string {
  return name === '' ? `Plan ${id}, ${showMoment(made, made)}` : name;
}

export function titleOf({ copies, plans }: Choice, { copy, plan }: PlanRef): string {
  if (copy !== null) return copies.find(({ id }) => id === copy)?.name ?? 'A discarded what-if';
  if (plan === null) return "The shop's plan";
  const found = plans.find(({ id }) => id === plan);
  return found === undefined ? 'An earlier plan' : planTitle(found);
}

/** A name for a new copy that none has yet. */
export function proposedName(names: readonly string[]): string {
  for (let n = 1; ; n++) if (!names.includes(`What-if ${n}`)) return `What-if ${n}`;
}

export function lateText(minutes: number | null): string {
  if (minutes === null) return 'does not fit';
  return minutes === 0 ? 'in time' : `${lengthText(minutes)} late`;
}

/** How a job comes off, from the plan before to the plan after. */
export function lateChangeText({ before, after }: LateChange): string {
  if (after === null) return 'no longer fits';
  if (before === null) return 'fits now';
  return `${lengthText(Math.abs(after - before))} ${after > before ? 'later' : 'sooner'}`;
}

/** `M1, P-03, Wed 25 Nov 18:40`. */
export function placeText({ machine, pallet, start }: RunPlace): string {
  return [machine, ...(pallet === null ? [] : [pallet]), showMoment(start, start)].join(', ');
}

type Nights = PlanComparison['nights'];

/** What a machine does in the night of that side. */
export function standsText(nights: Nights, side: keyof Nights, quietFrom: string | null): string {
  if (quietFrom !== null) return `stands from ${quietFrom.slice(11)}`;
  const night = nights[side];
  return night === null ? 'cuts on' : `cuts until ${night.end.slice(11)}`;
}

/** `+4.2`, `−1.0`, `0.0`: with the sign a difference is read by. */
export function signed(value: number, decimals: number): string {
  const sign = value > 0 ? '+' : value < 0 ? '−' : '';
  return `${sign}${Math.abs(value).toFixed(decimals)}`;
}
