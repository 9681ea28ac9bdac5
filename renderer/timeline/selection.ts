import type { Minute } from '../../core/time';

/** What a person has picked out of the plan: a run, or a time in which a machine stands. */
export type Selection =
  | { readonly kind: 'run'; readonly run: string }
  | { readonly kind: 'gap'; readonly machine: string; readonly start: Minute };

/** True if both pick the same thing. */
export function sameSelection(a: Selection | null, b: Selection | null): boolean {
  if (a === null || b === null) return a === b;
  if (a.kind === 'run') return b.kind === 'run' && a.run === b.run;
  return b.kind === 'gap' && a.machine === b.machine && a.start === b.start;
}
