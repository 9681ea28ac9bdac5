import { referee } from '../referee';
import type { Plan, PlannedRun, Shop } from '../shop';
import { type Interval, tonightOf } from '../time';
import type { NightOptions } from './outcome';
import { NightStudy, Z95 } from './outcomes';
import { queuesOf, stretchesIn } from './queue';

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

/**
 * Plays the same nights with both plans: each run and tool has the same luck in both. What is looked at is the first
 * plan's tonight; where somebody is there meanwhile in the second, what is planned to be cut then is cut.
 */
export function compareNights(first: Candidate, second: Candidate, options: NightOptions): NightComparison {
  const within = tonightAhead(first);
  if (within === null) return { gain: 0, halfWidth: 0 };
  return comparisonOf(hoursWithin(first, within, options), hoursWithin(second, within, options));
}

/** What is left of tonight's stretch at the plan's moment. */
function tonightAhead({ shop, plan }: Candidate): Interval | null {
  const tonight = tonightOf(stretchesIn(shop, plan), plan.now);
  return tonight === null ? null : { start: Math.max(tonight.start, plan.now), end: tonight.end };
}

function comparisonOf(first: Float64Array, second: Float64Array): NightComparison {
  const gains = first.map((hours, night) => second[night]! - hours);
  const gain = gains.reduce((sum, one) => sum + one, 0) / gains.length;
  const variance = gains.reduce((sum, one) => sum + (one - gain) ** 2, 0) / Math.max(1, gains.length - 1);
  return { gain, halfWidth: Z95 * Math.sqrt(variance / gains.length) };
}

/** Good hours of each night within a time: unattended stretches as they are played, attended ones as planned. */
function hoursWithin({ shop, plan }: Candidate, within: Interval, options: NightOptions): Float64Array {
  const hours = new Float64Array(options.nights);
  for (const { start, end, attended } of stretchesIn(shop, plan)) {
    const stretch = { start: Math.max(start, within.start), end: Math.min(end, within.end) };
    if (stretch.end <= stretch.start) continue;
    if (attended) {
      const planned = plannedHours(shop, plan, stretch);
      for (let night = 0; night < hours.length; night++) hours[night]! += planned;
      continue;
    }
    const study = new NightStudy(shop, plan, { ...options, stretch });
    study.play(options.nights);
    const { nightHours } = study;
    for (let night = 0; night < hours.length; night++) hours[night]! += nightHours[night]!;
  }
  return hours;
}

function plannedHours(shop: Shop, plan: Plan, { start, end }: Interval): number {
  const benches = new Set(shop.machines.filter(({ kind }) => kind === 'bench').map(({ id }) => id));
  const minutes = plan.runs
    .filter((run) => !benches.has(run.machine))
    .reduce((sum, run) => sum + Math.max(0, Math.min(run.end, end) - Math.max(run.start, start)), 0);
  return minutes / 60;
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
  const within = tonightAhead({ shop, plan });
  if (within === null) return null;
  let asPlanned: Float64Array | null = null;
  let best: Swap | null = null;
  for (const { machine, runs } of queuesOf(shop, plan).machines) {
    for (let i = 0; i + 1 < runs.length; i++) {
      const [first, second] = [runs[i]!, runs[i + 1]!];
      if (first.begun !== null || second.notBefore > first.planned.start) continue;
      const swapped = exchanged(shop, plan, first.planned, second.planned);
      if (swapped === null) continue;
      asPlanned ??= hoursWithin({ shop, plan }, within, options);
      const { gain, halfWidth } = comparisonOf(asPlanned, hoursWithin({ shop, plan: swapped }, within, options));
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
