import type { PlanIndex } from '../plan-index';
import type { Verdict } from './ghost';
import { type Carried, moveText, sameMove, type Trial } from './move';

/** What is known of the place at which a run is held. */
export interface Judged {
  readonly verdict: Verdict;
  /** In words, `Can stand here`. */
  readonly head: string;
  readonly say: readonly string[];
  readonly placed: Trial['placed'];
}

/** A trial speaks only for the move it was made for; one that comes late says nothing. */
export function judge(carried: Carried, trial: Trial | null, isTried: boolean): Judged {
  const { from, move, refusal } = carried;
  if (refusal !== null) return { verdict: 'refused', head: 'Cannot stand here', say: [refusal], placed: null };
  if (sameMove(from, move)) return { verdict: 'legal', head: 'Where it stands now', say: [], placed: null };
  if (trial === null || !sameMove(trial.move, move)) {
    return { verdict: 'open', head: isTried ? 'Being tried' : 'Not tried yet', say: [], placed: null };
  }
  const head = trial.legal ? 'Can stand here' : 'Cannot stand here';
  return { verdict: trial.legal ? 'legal' : 'refused', head, say: trial.say, placed: trial.placed };
}

/** The place and what is known of it as sentences for a screen reader. */
export function judgedText(index: PlanIndex, carried: Carried, { verdict, head, say }: Judged): string {
  const parts = verdict === 'open' ? [moveText(index, carried)] : [moveText(index, carried), head, ...say];
  return parts.map((part) => (/[.!?]$/.test(part) ? part : `${part}.`)).join(' ');
}
