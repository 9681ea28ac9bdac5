import type { Trial } from '../../core/contract';
import type { Job, Shop } from '../../core/shop';
import { addDays, lengthText } from '../../core/time';
import { showMoment } from '../tables';

/** A rush job as it is typed in. */
export interface RushDraft {
  /** The job it is made like. */
  readonly like: string;
  readonly id: string;
  readonly quantity: string;
  /** As typed, `Thu 16:00`. */
  readonly due: string;
  readonly weight: number;
}

/** How much more than an ordinary job an hour late costs. */
export const URGENCIES = [
  { weight: 1, words: 'as any other' },
  { weight: 3, words: 'before most others' },
  { weight: 10, words: 'before all others' },
] as const;

/** One part like the first job, due the afternoon after the plan's moment `near`, local time. */
export function firstDraft(shop: Shop, near: string): RushDraft {
  const due = showMoment(`${addDays(near.slice(0, 10), 1)}T16:00`, near);
  return { like: shop.jobs[0]?.id ?? '', id: freeId(shop), quantity: '1', due, weight: 3 };
}

/** `R-1`, or the first of them that is free. */
function freeId(shop: Shop): string {
  const taken = new Set(shop.jobs.map(({ id }) => id));
  for (let number = 1; ; number++) if (!taken.has(`R-${number}`)) return `R-${number}`;
}

/**
 * The job as a row of the table of jobs, due at a local time; what else is wrong with it is for the services to say. Null:
 * nothing to make it like.
 */
export function rushJob(shop: Shop, draft: RushDraft, due: string): Job | null {
  const like = shop.jobs.find(({ id }) => id === draft.like);
  if (like === undefined) return null;
  const { id, weight } = draft;
  return { ...like, id: id.trim(), quantity: Number(draft.quantity), due, weight, release: null, overdue: false };
}

/** What comes of the rush job itself. */
export interface RushOutcome {
  readonly bad: boolean;
  readonly say: string;
}

/** When the last of its runs is cut and whether it is off in time; `near` as for {@link firstDraft}. */
export function rushOutcome({ left, placed, comparison }: Trial, id: string, near: string): RushOutcome {
  const own = (run: string) => run.startsWith(`${id}/`);
  const end = placed
    .flatMap((run) => (own(run.run) ? [run.end] : []))
    .sort()
    .at(-1);
  if (end === undefined || left.some(own)) return { bad: true, say: `${id} does not fit before the plan ends.` };
  const late = comparison.late.find(({ job }) => job === id)?.after ?? 0;
  const verdict = late > 0 ? `and ${lengthText(late)} late when it is off` : 'in time';
  return { bad: late > 0, say: `${id} is cut by ${showMoment(end, near)}, ${verdict}.` };
}
