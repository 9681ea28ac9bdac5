import type { Trial } from '../../core/contract';
import type { Job, Shop } from '../../core/shop';

/** A rush job as it is typed in. */
export interface RushDraft {
  /** The job it is made like. */
  readonly like: string;
  readonly id: string;
  readonly quantity: string;
  /** Local time. */
  readonly due: string;
  readonly weight: number;
}

/** How much more than an ordinary job an hour late costs. */
export const URGENCIES = [
  { weight: 1, words: 'as any other' },
  { weight: 3, words: 'before most others' },
  { weight: 10, words: 'before all others' },
] as const;

export function firstDraft(shop: Shop, due: string): RushDraft {
  return { like: shop.jobs[0]?.id ?? '', id: freeId(shop), quantity: '1', due, weight: 3 };
}

/** `R-1`, or the first of them that is free. */
function freeId(shop: Shop): string {
  const taken = new Set(shop.jobs.map(({ id }) => id));
  for (let number = 1; ; number++) if (!taken.has(`R-${number}`)) return `R-${number}`;
}

/** The job as a row of the table of jobs; what is wrong with it is for the services to say. Null: nothing to make it like. */
export function rushJob(shop: Shop, draft: RushDraft): Job | null {
  const like = shop.jobs.find(({ id }) => id === draft.like);
  if (like === undefined) return null;
  const { id, due, weight } = draft;
  return { ...like, id: id.trim(), quantity: Number(draft.quantity), due, weight, release: null, overdue: false };
}

/** When the last of its runs is cut, local time; null if not all of them fit. */
export function rushEnd(trial: Trial, id: string): string | null {
  const own = (run: string) => run.startsWith(`${id}/`);
  if (trial.left.some(own)) return null;
  const ends = trial.placed.filter(({ run }) => own(run)).map(({ end }) => end);
  return ends.sort().at(-1) ?? null;
}
