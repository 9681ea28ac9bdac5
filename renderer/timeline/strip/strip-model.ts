import { type Interval, type Minute, union } from '../../../core/time';
import { grouped, jobOf, type PlanIndex } from '../plan-index';

/** The whole plan at a glance: how many machines cut over time, when nobody is here, what is late. */
export interface StripModel {
  /** From each of these minutes on as many machines cut as stand at the same place in `cutting`. */
  readonly at: readonly Minute[];
  readonly cutting: readonly number[];
  /** Machines that cut at all, benches apart. */
  readonly machines: number;
  readonly unattended: readonly Interval[];
  /** Times in which a run of a late job is cut, joined. */
  readonly late: readonly Interval[];
}

export function stripOf(index: PlanIndex): StripModel {
  const { plan, report, shop } = index.view;
  const cutters = new Set(shop.machines.filter(({ inUse, kind }) => inUse && kind !== 'bench').map(({ id }) => id));
  const changes = new Map<Minute, number>();
  const change = (minute: Minute, by: number): void => void changes.set(minute, (changes.get(minute) ?? 0) + by);
  for (const [machine, runs] of grouped(plan.runs, (run) => run.machine)) {
    if (!cutters.has(machine)) continue;
    // Where a lock could not hold, runs overlap; the machine still cuts only once.
    for (const { start, end } of union(runs)) {
      change(start, 1);
      change(end, -1);
    }
  }
  const at = [...changes.keys()].sort((a, b) => a - b);
  let now = 0;
  const cutting = at.map((minute) => {
    now += changes.get(minute) ?? 0;
    return now;
  });
  return {
    at,
    cutting,
    machines: cutters.size,
    unattended: report.stretches.filter((stretch) => !stretch.attended),
    late: union(plan.runs.filter((run) => index.late.has(jobOf(run.run))).map(({ start, end }) => ({ start, end }))),
  };
}

/** The most machines that cut at once within each of `columns` equal parts of a span. */
export function columnsOf({ at, cutting }: StripModel, span: Interval, columns: number): number[] {
  const most = new Array<number>(columns).fill(0);
  const perMin = columns / (span.end - span.start);
  for (const [i, start] of at.entries()) {
    const first = Math.max(0, Math.floor((start - span.start) * perMin));
    const end = ((at[i + 1] ?? start) - span.start) * perMin;
    for (let column = first; column < columns && column < end; column++) {
      most[column] = Math.max(most[column]!, cutting[i]!);
    }
  }
  return most;
}
