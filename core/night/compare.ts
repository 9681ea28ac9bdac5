import { referee } from '../referee';
import type { Plan, PlannedRun, Shop } from '../shop';
import type { NightOptions } from './outcome';
import { NightStudy } from './outcomes';
import { queuesOf } from './queue';

/** One plan and the shop it is for. */
export interface Candidate {
  readonly shop: Shop;
  readonly plan: Plan;
}

/** How much more the second plan is expected to cut than the first. */
export interface NightComparison {
  /** Hours to expect of the second less those of the first. */
  readonly gain: number;
  /** Half the width of the 95 % confidence interval of the gain; small, because both have the same luck. */
  readonly halfWidth: number;
}

/** Plays the same nights with both plans: each run and tool has the same luck in both. */
export function compareNights(first: Candidate, second: Candidate, options: NightOptions): NightComparison {
  const [a, b] = [first, second].map(({ shop, plan }) => {
    const study = new NightStudy(shop, plan, options);
    study.play(options.nights);
    return study.nightHours;
  }) as [Float64Array, Float64Array];
  const gains = a.map((hours, night) => b[night]! - hours);
  const gain = gains.reduce((sum, one) => sum + one, 0) / gains.length;
  const variance = gains.reduce((sum, one) => sum + (one - gain) ** 2, 0) / Math.max(1, gains.length - 1);
  return { gain, halfWidth: 1.96 * Math.sqrt(variance / gains.length) };
}

/** Two neighbours of one machine's night in the other order. */
export interface Swap extends NightComparison {
  readonly machine: string;
  readonly first: string;
  readonly second: string;
  readonly plan: Plan;
}

/**
 * The one exchange of two neighbouring runs of a machine's night that gains most hours to expect, or null if none does
 * for certain. Only what is legal counts: both are loaded by then, and the plan so changed passes the referee.
 */
export function bestSwap(shop: Shop, plan: Plan, options: NightOptions): Swap | null {
  let best: Swap | null = null;
  for (const { machine, runs } of queuesOf(shop, plan).machines) {
    for (let i = 0; i + 1 < runs.length; i++) {
      const [first, second] = [runs[i]!, runs[i + 1]!];
      if (first.begun !== null || second.notBefore > first.planned.start) continue;
      const swapped = exchanged(shop, plan, first.planned, second.planned);
      if (swapped === null) continue;
      const { gain, halfWidth } = compareNights({ shop, plan }, { shop, plan: swapped }, options);
      if (gain - halfWidth <= 0 || gain <= (best?.gain ?? 0)) continue;
      best = { machine: machine.id, first: first.run, second: second.run, gain, halfWidth, plan: swapped };
    }
  }
  return best;
}

/** The plan with two neighbours in the other order and its cost worked out anew, or null if that breaks a rule. */
function exchanged(shop: Shop, plan: Plan, first: PlannedRun, second: PlannedRun): Plan | null {
  const length = second.end - second.start;
  const earlier = { ...second, start: first.start, end: first.start + length };
  const later = { ...first, start: earlier.end, end: earlier.end + first.end - first.start };
  const runs = plan.runs
    .map((run) => (run === first ? later : run === second ? earlier : run))
    .sort((a, b) => a.start - b.start || (a.run < b.run ? -1 : 1));
  const changed = { ...plan, runs };
  const { cost } = referee(shop, changed);
  const priced = { ...changed, cost };
  return referee(shop, priced).legal ? priced : null;
}
