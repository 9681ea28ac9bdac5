import type { RunNeed } from '../shop';
import { type Minute, minuteOf } from '../time';
import { type PlanReading, stepKey } from './reading';

/** The runs of the job's next (`by` 1) or previous (`by` -1) step that carry some of the same parts. */
export function neighbours(reading: PlanReading, need: RunNeed, by: 1 | -1): RunNeed[] {
  const operation = need.job.route[need.step + by];
  if (operation === undefined) return [];
  const first = Math.floor(need.firstPart / operation.perPallet);
  const last = Math.floor((need.firstPart + need.parts - 1) / operation.perPallet);
  return (reading.needs.get(stepKey(need.job.id, need.step + by)) ?? []).slice(first, last + 1);
}

/** When a run is off, planned or done already; infinity if it is left out. */
export function offOf(reading: PlanReading, run: string): Minute {
  return reading.runOf.get(run)?.off ?? reading.done.get(run) ?? Number.POSITIVE_INFINITY;
}

/** From when the job may be worked on; minus infinity without a release time. */
export function releaseOf(reading: PlanReading, need: RunNeed): Minute {
  return need.job.release === null ? Number.NEGATIVE_INFINITY : minuteOf(reading.plan.clock, need.job.release);
}

/** The earliest a run may be on: its job released, the step before off and the lag passed. Infinity: never. */
export function readyAt(reading: PlanReading, need: RunNeed): Minute {
  if (need.step === 0) return releaseOf(reading, need);
  const before = neighbours(reading, need, -1).map((run) => offOf(reading, run.id));
  return Math.max(...before) + need.operation.lag;
}
