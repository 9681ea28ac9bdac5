import type { Why } from '../contract';
import { Counterfactual } from '../engine';
import { readPlan } from '../measure';
import { problemOf } from '../problem';
import type { Plan, Shop } from '../shop';
import { localAt, type Minute } from '../time';
import type { Ground } from './blockers';
import { handsOf } from './hands';
import { supplyOf } from './supply';
import { whyGapIn } from './why-gap';
import { whyLateIn } from './why-late';
import { whyRunIn } from './why-run';

/** Why things are as they are in one plan. */
export interface Reasons {
  /**
   * Why a run begins when it does on its machine: asked by leaving every other run where the plan has it and looking for an
   * earlier start, first as things are and then with one thing relaxed after the other. For a run left out: what would
   * let it in. Throws a RangeError for a run the plan does not name.
   */
  run(run: string): Why;
  /**
   * Why a machine stands at `start`, and what would let a run that is still to begin - planned later, there or elsewhere,
   * or left out - begin in that gap, all other runs staying where they are. Throws a RangeError where there is no such
   * machine or it does not stand then.
   */
  gap(machine: string, start: Minute): Why;
  /**
   * Why a job is late: what its longest wait is for, and what would shorten that wait, asked as for one run. For a job with
   * runs left out it is the first of those. Throws a RangeError where the shop has no such job.
   */
  late(job: string): Why;
}

/**
 * Looks a plan up once for everything that is asked about it: most of the time one answer takes. `shop` is the shop the
 * plan was made for, `plan` one the referee has passed.
 */
export function reasonsOf(shop: Shop, plan: Plan): Reasons {
  const reading = readPlan(shop, plan);
  const ground: Ground = {
    reading,
    facts: new Counterfactual(problemOf(shop, localAt(plan.clock, plan.now)), plan),
    hands: handsOf(reading),
    supply: supplyOf(reading),
  };
  return {
    run: (run) => whyRunIn(ground, run),
    gap: (machine, start) => whyGapIn(ground, machine, start),
    late: (job) => whyLateIn(ground, job),
  };
}

/** One answer of {@link reasonsOf}. */
export function whyRun(shop: Shop, plan: Plan, run: string): Why {
  return reasonsOf(shop, plan).run(run);
}

/** One answer of {@link reasonsOf}. */
export function whyGap(shop: Shop, plan: Plan, machine: string, start: Minute): Why {
  return reasonsOf(shop, plan).gap(machine, start);
}

/** One answer of {@link reasonsOf}. */
export function whyLate(shop: Shop, plan: Plan, job: string): Why {
  return reasonsOf(shop, plan).late(job);
}
