import type { Job, PlannedRun } from '../../../core/shop';
import { lengthText, type Minute, minuteOf } from '../../../core/time';
import { grouped, jobOf, type PlanIndex } from '../plan-index';
import { type Row, rowOf } from './row';
import { attendancesOf, runItem } from './run-item';

/** Each job that is planned or left out, the first to be due on top, with its runs and the time it is due. */
export function jobRows(index: PlanIndex): Row[] {
  const { plan, shop } = index.view;
  const runs = grouped(plan.runs, (run) => jobOf(run.run));
  const left = new Set(plan.left.map((one) => jobOf(one.run)));
  return shop.jobs
    .filter(({ id }) => runs.has(id) || left.has(id))
    .map((job) => jobRow(index, job, runs.get(job.id) ?? []))
    .sort((a, b) => (a.due?.minute ?? 0) - (b.due?.minute ?? 0));
}

function jobRow(index: PlanIndex, job: Job, runs: readonly PlannedRun[]): Row {
  const late = index.late.get(job.id);
  const inLanes = lanesOf(runs);
  return rowOf({
    key: `job ${job.id}`,
    head: {
      ...{ name: job.id, aside: job.name === job.id ? '' : job.name },
      ...{ below: '', bad: lateWords(late), kind: null },
    },
    lanes: Math.max(1, ...inLanes.map(({ lane }) => lane + 1)),
    items: inLanes.map(({ run, lane }) => runItem(index, run, 'operation', lane)),
    marks: attendancesOf(runs).map(({ mark }) => mark),
    due: { minute: minuteOf(index.clock, job.due), late: late !== undefined },
  });
}

function lateWords(late: { readonly finish: Minute | null; readonly lateBy: number } | undefined): string | null {
  if (late === undefined) return null;
  return late.finish === null ? 'does not fit' : `late by ${lengthText(late.lateBy)}`;
}

/** Runs at the same time on several machines lie one above the other, each in the first lane that is free. */
function lanesOf(runs: readonly PlannedRun[]): { readonly run: PlannedRun; readonly lane: number }[] {
  const free: Minute[] = [];
  return [...runs]
    .sort((a, b) => a.start - b.start)
    .map((run) => {
      const found = free.findIndex((minute) => minute <= run.start);
      const lane = found < 0 ? free.length : found;
      free[lane] = run.end;
      return { run, lane };
    });
}
