import type { Gap, PlanReport } from '../../core/contract';
import type { Attendance, Plan, PlannedRun, Shop } from '../../core/shop';
import { clockText, dayText, hoursText, lengthText, type Minute, momentText } from '../../core/time';
import { columns, section } from './layout';

/** Weekdays alone tell days apart up to six days on, with a night to spare. */
const WEEK = 6 * 1440;

/** A plan for reading on a terminal: the numbers first, then runs by machine, rounds, what stands, what is late. */
export function planText(shop: Shop, plan: Plan, report: PlanReport): string {
  return [
    `${shop.name}: plan as of ${dayText(plan.clock, plan.now)}, ${clockText(plan.clock, plan.now)}`,
    columns(numbers(shop, plan, report)).join('\n'),
    ...shop.machines.map((machine) => machineRuns(machine.name, machine.id, plan)),
    section('Rounds', roundLines(plan, report), 'Nobody is needed anywhere.'),
    section('What stands, and why', idleLines(plan, report), 'No machine stands at any time.'),
    section('Late', lateLines(plan, report), 'No job is late.'),
    ...notes(plan),
  ].join('\n\n');
}

function numbers(shop: Shop, plan: Plan, { tonight, late, rounds }: PlanReport): string[][] {
  const { cost, bound, search } = plan;
  const most = bound === null ? '' : ` of at most ${bound.tonight.toFixed(1)} h`;
  const least = bound === null ? '' : `, no plan is below ${bound.lateness.toFixed(1)}`;
  const night = tonight === null ? 'somebody is always there' : between(plan, tonight.start, tonight.end);
  return [
    ['Tonight', `${cost.tonight.toFixed(1)} h to expect${most}, ${cost.loaded.toFixed(1)} h loaded (${night})`],
    ['Late', `${late.length} of ${shop.jobs.length} jobs (${cost.lateness.toFixed(1)} weighted hours${least})`],
    ['Rounds', `${rounds.length}`],
    ['Morning', `${cost.morning} ${cost.morning === 1 ? 'machine' : 'machines'} still cutting when people come in`],
    ['Finish', `${momentOf(plan, plan.now + Math.round(cost.finish * 60))}, after ${hoursText(cost.finish * 60)}`],
    [
      'Search',
      `${search.steps} steps in ${search.seconds.toFixed(1)} s, seed ${search.seed}: ${ENDINGS[search.ending]}`,
    ],
  ];
}

const ENDINGS = {
  proved: 'no plan is better',
  limit: 'ended by its limit',
  stopped: 'stopped, best plan kept',
} as const;

function machineRuns(name: string, id: string, plan: Plan): string {
  const runs = plan.runs.filter((run) => run.machine === id).sort((a, b) => a.start - b.start);
  const rows = runs.map((run) => [between(plan, run.start, run.end), run.run, run.pallet ?? '-', handsOf(plan, run)]);
  return section(name === '' ? id : `${id}  ${name}`, columns(rows), 'No run.');
}

function handsOf(plan: Plan, { load, check, work, unload }: PlannedRun): string {
  const hand = (what: string, by: Attendance | null): string[] =>
    by === null ? [] : [`${what} ${shortMoment(plan, by.start)} ${by.person}`];
  return [...hand('load', load), ...hand('check', check), ...hand('by', work), ...hand('unload', unload)].join(', ');
}

function roundLines(plan: Plan, { rounds }: PlanReport): string[] {
  return rounds.flatMap((round) => [
    `  ${between(plan, round.start, round.end)}  ${round.person}`,
    ...columns(
      round.stops.map((stop) => [
        clockText(plan.clock, stop.start),
        stop.machine,
        stop.latest > stop.start ? `${stop.say}, at the latest ${shortMoment(plan, stop.latest)}` : stop.say,
      ]),
      4,
    ),
  ]);
}

function idleLines(plan: Plan, { machines }: PlanReport): string[] {
  return machines
    .filter((machine) => machine.gaps.length > 0)
    .flatMap((machine) => [
      `  ${machine.machine}`,
      ...columns(
        joined(machine.gaps).map((gap) => [
          between(plan, gap.start, gap.end),
          lengthText(gap.end - gap.start),
          gap.say,
        ]),
        4,
      ),
    ]);
}

/** Days and nights on end with nothing due are one line. */
function joined(gaps: readonly Gap[]): Gap[] {
  const lines: Gap[] = [];
  for (const gap of gaps) {
    const last = lines.at(-1);
    if (last?.reason === 'nothing-due' && gap.reason === 'nothing-due' && last.end === gap.start) {
      lines[lines.length - 1] = { ...last, end: gap.end, say: 'Nothing due: no work is left that it can do.' };
    } else lines.push(gap);
  }
  return lines;
}

function lateLines(plan: Plan, { late }: PlanReport): string[] {
  return columns(
    late.map((job) => [
      job.job,
      `due ${momentOf(plan, job.due)}`,
      job.finish === null ? 'not before the horizon' : `${lengthText(job.lateBy)} late`,
      job.why,
    ]),
  );
}

function notes(plan: Plan): string[] {
  const left = plan.left.map(({ run, why }) => [run, why]);
  const conflicts = plan.conflicts.map(({ run, say }) => [run, say]);
  return [
    ...(left.length > 0 ? [section('Left out', columns(left), '')] : []),
    ...(conflicts.length > 0 ? [section('Locks that could not hold', columns(conflicts), '')] : []),
  ];
}

function momentOf(plan: Plan, minute: Minute): string {
  return `${dayText(plan.clock, minute)} ${clockText(plan.clock, minute)}`;
}

/** `Wed 22:05`, from the same weekday a week on with its date. */
function shortMoment(plan: Plan, minute: Minute): string {
  return minute < plan.now + WEEK ? momentText(plan.clock, minute) : momentOf(plan, minute);
}

/** `Wed 22:05-23:10`, or with both days where they differ. */
function between(plan: Plan, start: Minute, end: Minute): string {
  const sameDay = dayText(plan.clock, start) === dayText(plan.clock, end);
  return `${shortMoment(plan, start)}-${sameDay ? clockText(plan.clock, end) : shortMoment(plan, end)}`;
}
