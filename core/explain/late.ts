import type { LateJob } from '../contract';
import { offOf, type PlanReading, readPlan, stepKey } from '../measure';
import { cutMinutes, type Job, type Plan, type RunNeed, type Shop } from '../shop';
import { type Minute, minuteOf } from '../time';
import { type Alone, aloneIn } from './alone';
import { handsOf } from './hands';
import { supplyOf } from './supply';
import { longestWait } from './waits';
import { clause, weekText } from './words';

/** The jobs with work in the plan that end after they are due, the costliest first, and why. */
export function lateJobs(shop: Shop, plan: Plan, reading: PlanReading = readPlan(shop, plan)): LateJob[] {
  const alone = aloneIn(reading);
  const [hands, supply] = [handsOf(reading), supplyOf(reading)];
  const late = shop.jobs.flatMap((job) => {
    const runs = job.route.flatMap((_, step) => reading.needs.get(stepKey(job.id, step)) ?? []);
    const open = runs.filter((run) => !reading.done.has(run.id));
    const due = minuteOf(plan.clock, job.due);
    const left = open.filter((run) => !reading.runOf.has(run.id));
    const finish = left.length > 0 ? null : Math.max(...runs.map((run) => offOf(reading, run.id)));
    const lateBy = (finish ?? finishBeyond(plan, left)) - due;
    if (open.length === 0 || lateBy <= 0) return [];
    const why =
      routeTooLong(reading, job, due, alone) ??
      leftOut(reading, left) ??
      longestWait(reading, hands, supply, job.id) ??
      'Its operations follow each other without a wait, but not on the fastest machines.';
    return [{ weight: job.weight, late: { job: job.id, due, finish, lateBy, why } }];
  });
  return late.sort((a, b) => b.weight * b.late.lateBy - a.weight * a.late.lateBy).map(({ late }) => late);
}

/** When the job would end at the soonest if what is left out follows the horizon: the plan's cost counts it so too. */
function finishBeyond(plan: Plan, left: readonly RunNeed[]): Minute {
  const shortest = left.map((run) => Math.min(...run.operation.machines.map(({ cycle }) => cutMinutes(run, cycle))));
  return plan.horizon + shortest.reduce((sum, minutes) => sum + minutes, 0);
}

function routeTooLong({ plan }: PlanReading, job: Job, due: Minute, alone: Alone): string | null {
  const finish = alone(job);
  if (finish <= due) return null;
  if (finish > plan.horizon) return 'Its route alone cannot end before the end of the plan with these hours.';
  const until = weekText(plan.clock, finish, plan.now);
  if (due <= plan.now) return `It was due before this plan begins; its route alone takes until ${until}.`;
  return `Its route alone takes until ${until} with these hours.`;
}

function leftOut({ left }: PlanReading, runs: readonly RunNeed[]): string | null {
  const [first] = runs;
  if (first === undefined) return null;
  return `Op ${first.operation.id} does not fit before the end of the plan: ${clause(left.get(first.id) ?? 'it found no room')}.`;
}
