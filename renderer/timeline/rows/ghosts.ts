import type { Interval, Minute } from '../../../core/time';
import type { PlanIndex } from '../plan-index';
import { grouped } from '../plan-index';
import { trackOf } from '../track';
import type { Row, Was } from './row';

/** Where a run was cut in another plan. */
export interface Ghost extends Interval {
  readonly machine: string;
  readonly run: string;
}

/** The rows of machines with where runs were in another plan; a run that has not moved leaves no trace. */
export function withGhosts(index: PlanIndex, rows: readonly Row[], ghosts: readonly Ghost[]): Row[] {
  const moved = grouped(
    ghosts.filter(({ run, machine, start, end }) => {
      const now = index.runs.get(run);
      return now?.machine !== machine || now.start !== start || now.end !== end;
    }),
    ({ machine }) => machine,
  );
  return rows.map((row) => {
    const own = row.machine === null ? undefined : moved.get(row.machine);
    return own === undefined ? row : { ...row, were: trackOf(own.map((ghost) => wasOf(index, ghost))) };
  });
}

function wasOf(index: PlanIndex, { run, machine, start, end }: Ghost): Was {
  const now = index.runs.get(run);
  const to: Minute | null = now?.machine === machine && now.start !== start ? now.start : null;
  // What leads to the run's present place is on screen when either end of it is.
  return { was: { start, end }, to, start: Math.min(start, to ?? start), end: Math.max(end, to ?? end) };
}
