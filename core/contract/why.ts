import type { Relaxation } from '../engine';

/**
 * What keeps work from starting earlier: the machine's other work · hands · pallets · places · load stations · the operation
 * before · the release · tools · what may run alone · a lock · planned-off time · a first-piece check. `choice`: nothing
 * does, the plan put it there.
 */
export type BindingKind = Relaxation | 'choice';

/** Why something in a plan is where it is, found by asking where it could be if all other runs stayed where they are. */
export interface Why {
  /** One or two sentences: what stands in the way in the plan, with clock times; or what the plan chose. */
  readonly here: string;
  /** One sentence: that it cannot be earlier; null where it could, or where there is nothing to ask. */
  readonly notEarlier: string | null;
  /** What would change it, the largest gain first; each names one thing, or several where one alone changes nothing. */
  readonly frees: readonly Freeing[];
  /** The kinds behind {@link frees}, in its order. */
  readonly binding: readonly BindingKind[];
}

export interface Freeing {
  readonly say: string;
  /**
   * Minutes: for a run and a late job how much earlier it starts, or is checked or taken off where it waits for that; for
   * a run left out how long before the end of the plan; for a gap how much of it would be cut.
   */
  readonly gain: number;
}
