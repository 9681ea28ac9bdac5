import { clockOn, localAt } from '../time';
import type { Context } from './context';
import { type Finding, finding } from './verdict';
import { at } from './words';

/** Rule 0: the plan's own clock and horizon, and every run named exactly once. */
export function checkCompleteness(ctx: Context): Finding[] {
  return [...checkClock(ctx), ...checkHorizon(ctx), ...checkNames(ctx)];
}

function checkClock(ctx: Context): Finding[] {
  const { shop, plan, clock, now } = ctx;
  if (plan.clock.zone !== shop.zone) {
    const say = `The plan's clock is in ${plan.clock.zone}; the shop's is in ${shop.zone}.`;
    return [finding(0, 'clock', [], say)];
  }
  // Two days, because the day on which the clocks go back is longer than 24 hours.
  const isNear = clock.origin === plan.clock.origin && now >= 0 && now < 2 * 1440;
  if (isNear && clockOn(shop.zone, localAt(clock, now)).origin === clock.origin) return [];
  return [finding(0, 'clock', [], `Minute 0 of the plan is not the midnight that begins the day of its moment.`)];
}

function checkHorizon({ plan, clock, horizon, shop }: Context): Finding[] {
  if (plan.horizon === horizon) return [];
  const say = `The plan's horizon is ${at(clock, plan.horizon)}; ${shop.horizonDays} days make it ${at(clock, horizon)}.`;
  return [finding(0, 'horizon-claimed', [], say)];
}

function checkNames(ctx: Context): Finding[] {
  const { plan, needs, floor } = ctx;
  const found: Finding[] = [];
  const named = new Set<string>();
  for (const { run } of [...plan.runs, ...plan.left]) {
    if (!needs.has(run)) found.push(finding(0, 'unknown-run', [run], `No job of the shop calls for run ${run}.`));
    else if (named.has(run)) found.push(finding(0, 'repeated-run', [run], `The plan names run ${run} more than once.`));
    named.add(run);
  }
  for (const run of needs.keys()) {
    if (named.has(run) || floor.get(run)?.state === 'done') continue;
    const say = `Run ${run} is neither planned nor said to be left out.`;
    found.push(finding(0, 'missing-run', [run], say));
  }
  return found;
}
