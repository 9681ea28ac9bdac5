import type { Lock } from '../../core/contract';
import type { Plan, PlannedRun, Shop } from '../../core/shop';
import { localAt } from '../../core/time';

/** Held by nothing. */
export function noLock(run: string): Lock {
  return { run, machine: null, pallet: null, start: null, after: null };
}

/** What locks a run in the shop; null where it is free, or on the floor already. */
export function lockOf(shop: Shop, run: string): Lock | null {
  const entry = shop.floor.find((candidate) => candidate.run === run && candidate.state === 'locked');
  if (entry === undefined) return null;
  const { machine, pallet, start, after } = entry;
  return { run, machine, pallet, start, after };
}

/** True for a run that has begun: where it is, is not for a plan to say. */
export function isOnFloor(shop: Shop, run: string): boolean {
  return shop.floor.some((entry) => entry.run === run && entry.state !== 'locked');
}

/** The run that cuts before this one on its machine, or null if it is the first. */
export function runBefore(plan: Plan, { machine, start }: PlannedRun): PlannedRun | null {
  const earlier = plan.runs.filter((run) => run.machine === machine && run.start < start);
  return earlier.reduce<PlannedRun | null>((last, run) => (last === null || run.start > last.start ? run : last), null);
}

/** Everything a run can be held to, as the plan has it. */
export function lockAsPlanned(plan: Plan, run: PlannedRun): Lock {
  return {
    run: run.run,
    machine: run.machine,
    pallet: run.pallet,
    start: localAt(plan.clock, run.start),
    after: runBefore(plan, run)?.run ?? null,
  };
}
