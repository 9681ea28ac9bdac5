import { repeatMinutes } from './repeats';
import type { Job, Operation, Shop } from './schema';

/** One pallet's stay on one machine for one operation, as the shop's jobs call for it. */
export interface RunNeed {
  /** `job/operation/number`, numbers from 1. */
  readonly id: string;
  readonly job: Job;
  readonly operation: Operation;
  /** Place of the operation in the route, from 0. */
  readonly step: number;
  /** Number of the run within its operation, from 1. */
  readonly number: number;
  /** Parts of the job on this pallet: from `firstPart` (counted from 0) for `parts` parts. */
  readonly firstPart: number;
  readonly parts: number;
  /** Minutes of repeats it is planned with ({@link repeatMinutes}). */
  readonly repeats: number;
}

/** All runs the shop's jobs call for, job by job, operation by operation: a job of 20 parts at 4 a pallet has 5 runs. */
export function runsOf(shop: Shop): RunNeed[] {
  return shop.jobs.flatMap((job) =>
    job.route.flatMap((operation, step) => runsOfOperation(shop, job, operation, step)),
  );
}

function runsOfOperation(shop: Shop, job: Job, operation: Operation, step: number): RunNeed[] {
  const repeats = repeatMinutes(operation.checks, shop.night.repeatShare);
  const runs = Math.ceil(job.quantity / operation.perPallet);
  return Array.from({ length: runs }, (_, i) => ({
    id: `${job.id}/${operation.id}/${i + 1}`,
    job,
    operation,
    step,
    number: i + 1,
    firstPart: i * operation.perPallet,
    parts: Math.min(operation.perPallet, job.quantity - i * operation.perPallet),
    repeats,
  }));
}

/**
 * Minutes the machine is planned to cut for this run: `cycle` is for a full pallet, a part-filled one takes its share,
 * rounded up; then its repeats.
 */
export function cutMinutes(run: RunNeed, cycle: number): number {
  return Math.ceil((cycle * run.parts) / run.operation.perPallet) + run.repeats;
}

/** The runs of the step before that have parts of this one on them, by id; none in the first step. */
export function runsBefore({ job, step, firstPart, parts }: RunNeed): string[] {
  const before = job.route[step - 1];
  if (before === undefined) return [];
  const first = Math.floor(firstPart / before.perPallet) + 1;
  const last = Math.floor((firstPart + parts - 1) / before.perPallet) + 1;
  return Array.from({ length: last - first + 1 }, (_, i) => `${job.id}/${before.id}/${first + i}`);
}
