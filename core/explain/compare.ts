import type { DryChange, FigureKey, LateChange, PlanComparison, PlanReport, RunPlace } from '../contract';
import { offOf, type PlanReading, type RunSpans, readPlan, stepKey } from '../measure';
import { type Job, MOVED_AFTER, type Plan, type Shop } from '../shop';
import { localAt, type Minute, type Stretch } from '../time';

/** A plan with the shop it was made for and its report. */
export interface Compared {
  readonly shop: Shop;
  readonly plan: Plan;
  readonly report: PlanReport;
}

const MS_PER_MINUTE = 60_000;
const WEEK = 7 * 1440;

/**
 * What changes for people who worked by `before` if they work by `after`. The plans may be made at different moments and
 * for different shops: times are compared as they stand on the wall's calendar and not from each plan's own origin, and
 * tonight is each plan's own. Both plans must be ones the referee has passed.
 */
export function comparePlans(before: Compared, after: Compared): PlanComparison {
  const sides = { before: sideOf(before), after: sideOf(after) };
  return {
    moved: movedRuns(sides),
    ...runsOfOneSide(sides),
    jobs: {
      added: idsOnlyIn(after.shop.jobs, before.shop.jobs),
      removed: idsOnlyIn(before.shop.jobs, after.shop.jobs),
    },
    late: lateChanges(sides),
    nights: { before: nightOf(sides.before), after: nightOf(sides.after) },
    dry: dryChanges(sides),
    figures: figureChanges(sides),
    displaced: { tonight: displacedTonight(sides), week: displacedThisWeek(sides) },
  };
}

interface Side extends Compared {
  readonly reading: PlanReading;
  readonly lateBy: ReadonlyMap<string, number | null>;
}

interface Sides {
  readonly before: Side;
  readonly after: Side;
}

function sideOf(compared: Compared): Side {
  return {
    ...compared,
    reading: readPlan(compared.shop, compared.plan),
    lateBy: new Map(compared.report.late.map(({ job, finish, lateBy }) => [job, finish === null ? null : lateBy])),
  };
}

/** A minute of one plan on an axis that both share. */
function absolute({ plan }: Side, minute: Minute): Minute {
  return plan.clock.origin / MS_PER_MINUTE + minute;
}

function idsOnlyIn(rows: readonly { readonly id: string }[], others: readonly { readonly id: string }[]): string[] {
  const known = new Set(others.map(({ id }) => id));
  return rows.flatMap(({ id }) => (known.has(id) ? [] : [id]));
}

function byStart({ reading }: Side): RunSpans[] {
  return [...reading.runs].sort((a, b) => a.planned.start - b.planned.start);
}

function movedRuns({ before, after }: Sides): PlanComparison['moved'] {
  return byStart(after).flatMap((to) => {
    const from = before.reading.runOf.get(to.need.id);
    if (from === undefined) return [];
    const minutes = absolute(after, to.planned.start) - absolute(before, from.planned.start);
    if (from.planned.machine === to.planned.machine && Math.abs(minutes) <= MOVED_AFTER) return [];
    return [{ run: to.need.id, job: to.need.job.id, from: placeIn(before, from), to: placeIn(after, to) }];
  });
}

function placeIn({ plan }: Side, { planned }: RunSpans): RunPlace {
  return { machine: planned.machine, pallet: planned.pallet, start: localAt(plan.clock, planned.start) };
}

function runsOfOneSide({ before, after }: Sides): Pick<PlanComparison, 'appeared' | 'gone'> {
  const idsMissingFrom = (side: Side, runs: readonly RunSpans[]) =>
    runs.map(({ need }) => need.id).filter((run) => !side.reading.runOf.has(run));
  return {
    appeared: idsMissingFrom(before, byStart(after)),
    gone: idsMissingFrom(after, byStart(before)).filter((run) => !after.reading.done.has(run)),
  };
}

function lateChanges(sides: Sides): LateChange[] {
  const { before, after } = sides;
  const earlier = new Map(before.shop.jobs.map((job) => [job.id, job]));
  const changes = after.shop.jobs
    // What is finished is past, and neither late nor in time any more.
    .filter((job) => openRuns(after, job).length > 0)
    .map((job) => ({
      weight: job.weight,
      isNew: !earlier.has(job.id),
      change: {
        job: job.id,
        before: earlier.has(job.id) ? latenessIn(before, job) : null,
        after: latenessIn(after, job),
      },
    }))
    .filter(({ isNew, change }) => isNew || isOther(change));
  return changes
    .sort((a, b) => worseningOf(b.change, b.weight) - worseningOf(a.change, a.weight))
    .map(({ change }) => change);
}

function openRuns({ reading }: Side, job: Job) {
  return needsOf(reading, job).filter((need) => !reading.done.has(need.id));
}

function needsOf(reading: PlanReading, job: Job) {
  return job.route.flatMap((_, step) => reading.needs.get(stepKey(job.id, step)) ?? []);
}

function latenessIn({ lateBy }: Side, job: Job): number | null {
  const minutes = lateBy.get(job.id);
  return minutes === undefined ? 0 : minutes;
}

function isOther({ before, after }: LateChange): boolean {
  return before === null || after === null ? before !== after : Math.abs(after - before) >= 1;
}

/** What does not fit is worse than any lateness. */
function worseningOf({ before, after }: LateChange, weight: number): number {
  if (after === null) return Number.MAX_VALUE;
  return before === null ? weight * after - Number.MAX_VALUE / 2 : weight * (after - before);
}

function nightOf({ plan, report }: Side): PlanComparison['nights']['before'] {
  if (report.tonight === null) return null;
  return { start: localAt(plan.clock, report.tonight.start), end: localAt(plan.clock, report.tonight.end) };
}

function dryChanges({ before, after }: Sides): DryChange[] {
  const nights = { before: before.report.tonight, after: after.report.tonight };
  if (nights.before === null || nights.after === null) return [];
  const machines = new Set([...before.shop.machines, ...after.shop.machines].map(({ id }) => id));
  const changes = [...machines].flatMap((machine) => {
    const [was, is] = [nightIn(before, nights.before!, machine), nightIn(after, nights.after!, machine)];
    const minutes = is.cut - was.cut;
    const isSame = minutes === 0 && (is.cut === 0 || was.stands === is.stands);
    return isSame ? [] : [{ machine, before: was.quietFrom, after: is.quietFrom, minutes }];
  });
  return changes.sort((a, b) => a.minutes - b.minutes);
}

/** A machine that a shop does not have cuts nothing there. */
function nightIn({ plan, report }: Side, night: Stretch, machine: string) {
  const row = report.machines.find((each) => each.machine === machine);
  const quietFrom = row === undefined ? Math.max(night.start, plan.now) : row.quietFrom;
  return {
    cut: row?.tonightCut ?? 0,
    quietFrom: quietFrom === null ? null : localAt(plan.clock, quietFrom),
    /** Minutes it stands at the end: nights of two dates cannot be compared by the minute they end at. */
    stands: quietFrom === null ? 0 : night.end - quietFrom,
  };
}

function figureChanges({ before, after }: Sides): PlanComparison['figures'] {
  const [was, is] = [before.plan.cost, after.plan.cost];
  const madeLater = absolute(after, after.plan.now) - absolute(before, before.plan.now);
  const figure = (key: FigureKey, a: number, b: number) => ({ key, before: a, after: b });
  return [
    figure('tonight', was.tonight, is.tonight),
    figure('loaded', was.loaded, is.loaded),
    figure('lateness', was.lateness, is.lateness),
    figure('lateJobs', before.report.late.length, after.report.late.length),
    figure('rounds', was.rounds, is.rounds),
    figure('extraHours', was.extraHours, is.extraHours),
    figure('morning', was.morning, is.morning),
    figure('finish', was.finish, is.finish + madeLater / 60),
    figure('total', was.total, is.total),
  ];
}

function displacedTonight({ before, after }: Sides): string[] {
  const [was, is] = [before.report.tonight, after.report.tonight];
  if (was === null || is === null) return [];
  const areApart = absolute(before, was.end) <= absolute(after, is.start);
  if (areApart || absolute(after, is.end) <= absolute(before, was.start)) return [];
  return byStart(before)
    .filter((run) => cutsIn(before, run, was) && !after.reading.done.has(run.need.id))
    .filter(({ need }) => {
      const now = after.reading.runOf.get(need.id);
      return now === undefined || !cutsIn(after, now, is);
    })
    .map(({ need }) => need.id);
}

function cutsIn({ plan }: Side, run: RunSpans, night: Stretch): boolean {
  return run.cutting.some((cut) => cut.start < night.end && cut.end > Math.max(night.start, plan.now));
}

/** The next seven days are counted from the moment of the plan after. */
function displacedThisWeek({ before, after }: Sides): string[] {
  const end = absolute(after, after.plan.now) + WEEK;
  const later = new Map(after.shop.jobs.map((job) => [job.id, job]));
  return before.shop.jobs
    .filter((job) => {
      const same = later.get(job.id);
      if (same === undefined || openRuns(after, same).length === 0) return false;
      const was = finishIn(before, job);
      return was < end && finishIn(after, same) > was + MOVED_AFTER;
    })
    .map((job) => job.id);
}

/** On the shared axis; infinity if some of the job is left out. */
function finishIn(side: Side, job: Job): Minute {
  const offs = needsOf(side.reading, job).map((need) => offOf(side.reading, need.id));
  return absolute(side, Math.max(...offs));
}
