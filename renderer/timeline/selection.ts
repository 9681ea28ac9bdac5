import type { Minute } from '../../core/time';

/** What a person has picked out of the plan: a run, a time in which a machine stands, or an attendance to its tools. */
export type Selection =
  | { readonly kind: 'run'; readonly run: string }
  | { readonly kind: 'gap' | 'care'; readonly machine: string; readonly start: Minute };

/** True if both pick the same thing. */
export function sameSelection(a: Selection | null, b: Selection | null): boolean {
  if (a === null || b === null) return a === b;
  if (a.kind === 'run' || b.kind === 'run') return a.kind === b.kind && 'run' in a && 'run' in b && a.run === b.run;
  return a.kind === b.kind && a.machine === b.machine && a.start === b.start;
}
