/** One run's need of a kind. */
export interface CoverCut {
  readonly minutes: number;
  /** Cuts in unattended time: each tool it uses must keep its reserve. */
  readonly alone: boolean;
}

/** A sister tool, in the magazine already or new. */
export interface CoverTool {
  readonly left: number;
  /** Cuts, by their number in the queue, before which it is dressed by hand. */
  readonly dressedBefore: readonly number[];
}

/** One tool kind on one machine: what its queue needs, what there is, what a new tool brings. All in minutes. */
export interface CoverCase {
  /** Whether each cut is taken whole from one tool; otherwise tools may share it. */
  readonly whole: boolean;
  readonly life: number;
  /** What an unattended cut must leave in each tool it uses. */
  readonly reserve: number;
  /** Longest grinding between two dressings by hand; null where there is none. Only where cuts are taken whole. */
  readonly every: number | null;
  /** In order of start. */
  readonly cuts: readonly CoverCut[];
  readonly held: readonly CoverTool[];
}

export function newTool({ life }: CoverCase): CoverTool {
  return { left: life, dressedBefore: [] };
}

/**
 * New tools without which no choice of tools covers the cuts, from minutes alone: all of them may use up what there is,
 * the unattended ones all but the reserves.
 */
export function leastByMinutes({ life, reserve, cuts, held }: CoverCase): number {
  const least = (some: readonly CoverCut[], kept: number): number => {
    const needed = some.reduce((sum, cut) => sum + cut.minutes, 0);
    const there = held.reduce((sum, tool) => sum + Math.max(0, tool.left - kept), 0);
    return needed <= there ? 0 : Math.ceil((needed - there) / (life - kept) - 1e-9);
  };
  const alone = cuts.filter((cut) => cut.alone);
  return Math.max(least(cuts, 0), least(alone, reserve));
}
