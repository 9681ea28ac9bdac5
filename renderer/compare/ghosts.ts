import type { PlanView } from '../../core/contract';
import type { Minute } from '../../core/time';

/** A run of the plan before, on the axis of the plan after. */
export interface Ghost {
  readonly machine: string;
  readonly run: string;
  readonly start: Minute;
  readonly end: Minute;
}

const MS_PER_MINUTE = 60_000;

/** Where the runs of `before` stood, in minutes of the plan after. */
export function ghostsOf(before: PlanView, after: PlanView): Ghost[] {
  const shift = (before.plan.clock.origin - after.plan.clock.origin) / MS_PER_MINUTE;
  return before.plan.runs.map(({ machine, run, start, end }) => ({
    machine,
    run,
    start: start + shift,
    end: end + shift,
  }));
}
