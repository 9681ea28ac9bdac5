import type { CopyView, PlanRef, PlanSummary } from '../../core/contract';

export type Side = 'before' | 'after';

/** Two plans beside each other. */
export type Pair = Readonly<Record<Side, PlanRef>>;

/** The plans there are to choose from. */
export interface Choice {
  readonly copies: readonly CopyView[];
  /** Of the shop, newest first. */
  readonly plans: readonly PlanSummary[];
}

/** The plan of the shop that counts. */
export const OWN: PlanRef = { copy: null, plan: null };

export function sameRef(a: PlanRef, b: PlanRef): boolean {
  return a.copy === b.copy && a.plan === b.plan;
}

/**
 * The two plans to show: those chosen as long as they are there; else what the shop was to do before its plan that
 * counts, beside that plan; with no earlier plan the shop's beside the first copy's. Null: there are no two plans.
 */
export function pairOf(choice: Choice, chosen: Pair | null): Pair | null {
  if (chosen !== null && isThere(choice, chosen.before) && isThere(choice, chosen.after)) return chosen;
  if (!isThere(choice, OWN)) return null;
  const current = choice.plans.find((plan) => plan.current);
  const others = choice.plans.filter((plan) => !plan.current);
  const earlier = others.find(({ id }) => current !== undefined && id < current.id) ?? others[0];
  if (earlier !== undefined) return { before: { copy: null, plan: earlier.id }, after: OWN };
  const copy = choice.copies.find(({ plan }) => plan !== null);
  return copy === undefined ? null : { before: OWN, after: { copy: copy.id, plan: null } };
}

/** A pair with one side chosen by hand: a copy chosen first stands beside the shop's own plan. */
export function withChosen(choice: Choice, chosen: Pair | null, side: Side, ref: PlanRef): Pair {
  const shown = pairOf(choice, chosen) ?? { before: OWN, after: OWN };
  const rest = chosen === null && side === 'after' && ref.copy !== null ? { ...shown, before: OWN } : shown;
  return { ...rest, [side]: ref };
}

function isThere({ copies, plans }: Choice, { copy, plan }: PlanRef): boolean {
  if (copy !== null) return copies.some((each) => each.id === copy && each.plan !== null);
  return plan === null ? plans.some((each) => each.current) : plans.some(({ id }) => id === plan);
}
