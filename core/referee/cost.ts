import { cutMinutes, MOVED_AFTER, type Plan, type PlanCost, ROUND_PAUSE, type RunNeed } from '../shop';
import { type Interval, type Minute, minuteOf, type Stretch, tonightOf } from '../time';
import type { PersonTime, Visit, Walk } from './attendance';
import type { Context } from './context';
import { cuttingOf, type Stay } from './stay';
import { clip, groupBy, isEmpty, minutesInside } from './sweep';
import { type Finding, finding } from './verdict';

/** Two costs this near each other are the same sum, added up in another order. */
const TOLERANCE = 1e-6;

/** The plan's cost from shop and plan alone; without the released plan `moved` is taken at the plan's word. */
export function costOf(
  ctx: Context,
  visits: readonly Visit[],
  walk: Walk,
  times: ReadonlyMap<string, PersonTime>,
  stretches: readonly Stretch[],
  released: Plan | undefined,
): PlanCost {
  const jobs = finishes(ctx);
  const late = jobs.map(({ weight, due, finish }) => weight * Math.max(0, finish - due));
  const last = jobs.reduce((latest, { finish }) => Math.max(latest, finish), ctx.now);
  const parts = {
    lateness: sum(late) / 60,
    ...nightsOf(
      ctx,
      stretches.filter((stretch) => !stretch.attended),
      tonightOf(stretches, ctx.now),
    ),
    rounds: roundsOf(visits, walk),
    extraHours: sum(visits.map((visit) => minutesInside(times.get(visit.person)?.extra ?? [], visit))) / 60,
    moved: released === undefined ? ctx.plan.cost.moved : movedFrom(ctx, released),
    flow: flowOf(ctx) / 60,
    finish: (last - ctx.now) / 60,
  };
  const { weights } = ctx.shop;
  const total =
    weights.lateness * parts.lateness -
    weights.tonight * parts.tonight -
    weights.laterNights * parts.laterNights -
    weights.morning * parts.morning +
    weights.rounds * parts.rounds +
    weights.extraHours * parts.extraHours +
    weights.moved * parts.moved +
    weights.flow * parts.flow +
    weights.finish * parts.finish;
  return { ...parts, total };
}

/** Rule 0: what the plan says it costs. */
export function checkCost(plan: Plan, cost: PlanCost): Finding[] {
  const wrong = (Object.keys(cost) as (keyof PlanCost)[]).filter(
    (part) => !(Math.abs(plan.cost[part] - cost[part]) <= TOLERANCE),
  );
  if (wrong.length === 0) return [];
  const each = wrong.map((part) => `${part} is ${cost[part]} and not ${plan.cost[part]}`);
  return [finding(0, 'cost', [], `The plan's cost is not what it says: ${each.join(', ')}.`)];
}

/** When each job that still has runs to do is finished; what is done is past, and no plan makes it later or sooner. */
function finishes(ctx: Context): { weight: number; due: number; finish: number }[] {
  const toDo = [...ctx.needs.values()].filter((need) => ctx.stayOf.has(need.id) || !isDone(ctx, need));
  return [...groupBy(toDo, (need) => need.job.id).values()].map((needs) => {
    const { job } = needs[0] as RunNeed;
    const planned = needs.flatMap((need) => ctx.stayOf.get(need.id) ?? []);
    const left = needs.filter((need) => !ctx.stayOf.has(need.id));
    const soonest = left.length > 0 ? ctx.horizon : Number.NEGATIVE_INFINITY;
    const last = planned.reduce((latest, stay) => Math.max(latest, stay.off), soonest);
    return { weight: job.weight, due: minuteOf(ctx.clock, job.due), finish: last + sum(left.map(shortestCut)) };
  });
}

/** Minutes from now to the end of each run's cut, summed; a run left out counts to the horizon. */
function flowOf(ctx: Context): Minute {
  const toDo = [...ctx.needs.values()].filter((need) => ctx.stayOf.has(need.id) || !isDone(ctx, need));
  return sum(
    toDo.map((need) => {
      const stay = ctx.stayOf.get(need.id);
      if (stay === undefined) return ctx.horizon - ctx.now;
      return stay.machine?.kind === 'bench' ? 0 : Math.max(0, stay.planned.end - ctx.now);
    }),
  );
}

function isDone(ctx: Context, need: RunNeed): boolean {
  return ctx.floor.get(need.id)?.state === 'done';
}

function shortestCut(need: RunNeed): Minute {
  return need.operation.machines.reduce((least, { cycle }) => Math.min(least, cutMinutes(need, cycle)), Infinity);
}

function nightsOf(
  ctx: Context,
  unattended: readonly Interval[],
  tonight: Stretch | null,
): Pick<PlanCost, 'loaded' | 'tonight' | 'laterNights' | 'morning'> {
  const later = unattended.filter((stretch) => tonight === null || stretch.start > tonight.start);
  const cuts = cutsOf(ctx);
  const spans = cuts.flatMap((cut) => cut.spans);
  const whole = tonight === null ? [] : [tonight];
  const atDawn = cuts.filter((cut) => tonight !== null && cut.spans.some((s) => cutsThroughLastMinute(s, tonight)));
  return {
    loaded: hoursInside(whole, spans),
    tonight: expectedHours(whole, cuts),
    laterNights: expectedHours(later, cuts),
    morning: new Set(atDawn.map((cut) => cut.machine)).size,
  };
}

/** One run's cutting from now on, and its odds. */
interface Cut {
  readonly machine: string;
  readonly start: Minute;
  readonly spans: readonly Interval[];
  readonly block: number;
  readonly loss: number;
}

/** In order of start; those that start in the same minute (locks that cannot hold) in the order of the jobs. */
function cutsOf(ctx: Context): Cut[] {
  const place = new Map([...ctx.needs.keys()].map((run, index) => [run, index]));
  const placeOf = (stay: Stay) => place.get(stay.planned.run) ?? 0;
  return [...ctx.stays]
    .sort((a, b) => a.planned.start - b.planned.start || placeOf(a) - placeOf(b))
    .map((stay) => {
      const spans = cuttingOf(stay)
        .map((span) => clip(span, ctx.ahead))
        .filter((span) => !isEmpty(span));
      const { machine, start } = stay.planned;
      return { machine, start, spans, ...stay.need.operation.odds };
    });
}

/** In each stretch and on each machine, a run's hours count if it and all before it there go well. */
function expectedHours(stretches: readonly Interval[], cuts: readonly Cut[]): number {
  const hours = [...groupBy(cuts, (cut) => cut.machine).values()].flatMap((queue) =>
    stretches.map((stretch) => {
      let works = 1;
      let expected = 0;
      for (const { spans, block, loss } of queue) {
        const inside = hoursInside([stretch], spans);
        if (inside === 0) continue;
        works *= 1 - block;
        expected += inside * (1 - loss) * works;
      }
      return expected;
    }),
  );
  return sum(hours);
}

function hoursInside(stretches: readonly Interval[], spans: readonly Interval[]): number {
  return sum(spans.map((span) => minutesInside(stretches, span))) / 60;
}

function cutsThroughLastMinute(span: Interval, tonight: Stretch): boolean {
  return span.start < tonight.end && span.end >= tonight.end;
}

function roundsOf(visits: readonly Visit[], walk: Walk): number {
  return sum(
    [...groupBy(visits, (visit) => visit.person).values()].map((own) => {
      const inOrder = own.sort((a, b) => a.start - b.start || a.end - b.end);
      const breaks = inOrder.filter((visit, i) => {
        const before = inOrder[i - 1];
        return before === undefined || visit.start - before.end > walk(before.spot, visit.spot) + ROUND_PAUSE;
      });
      return breaks.length;
    }),
  );
}

function movedFrom(ctx: Context, released: Plan): number {
  const before = new Map(released.runs.map((run) => [run.run, run]));
  const moved = [...ctx.stayOf.values()].filter(({ planned }) => {
    const was = before.get(planned.run);
    if (was === undefined) return false;
    const minutes = (ctx.plan.clock.origin - released.clock.origin) / 60_000 + planned.start - was.start;
    return was.machine !== planned.machine || Math.abs(minutes) > MOVED_AFTER;
  });
  return moved.length;
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, number) => total + number, 0);
}
