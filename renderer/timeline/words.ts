import type { IdleReason } from '../../core/contract';
import { type Attendance, mostRepeatMinutes, type PlannedRun, type RunNeed } from '../../core/shop';
import {
  clockText,
  coverage,
  dayText,
  type Interval,
  intersect,
  lengthText,
  type Minute,
  minuteOf,
  momentText,
} from '../../core/time';
import { holdOf, machineName, type PlanIndex, personName } from './plan-index';
import type { Selection } from './selection';

/** A thing on the timeline in words, for the details, the tooltip and the ear. */
export interface Facts {
  readonly title: string;
  readonly subtitle: string;
  /** Set if the job is late: by how much. */
  readonly late: string | null;
  readonly facts: readonly { readonly term: string; readonly words: string }[];
}

export const REASON_WORDS: Readonly<Record<IdleReason, string>> = {
  dry: 'dry',
  hand: 'waiting for a hand',
  off: 'planned off',
  'nothing-due': 'nothing due',
};

/** What is selected, in words; null if the plan no longer holds it. */
export function factsOf(index: PlanIndex, selection: Selection): Facts | null {
  if (selection.kind === 'run') return runFacts(index, selection.run);
  const { machine, start } = selection;
  return selection.kind === 'care' ? careFacts(index, machine, start) : gapFacts(index, machine, start);
}

/** The facts as sentences for a screen reader. */
export function sentenceOf(facts: Facts): string {
  const rest = facts.facts.map((fact) => `${fact.term}: ${fact.words}`);
  return [facts.title, facts.subtitle, facts.late, ...rest].filter((part) => part !== null && part !== '').join('. ');
}

function runFacts(index: PlanIndex, id: string): Facts | null {
  const run = index.runs.get(id);
  const need = index.needs.get(id);
  if (run === undefined || need === undefined) return null;
  const { job, operation } = need;
  const many = Math.ceil(job.quantity / operation.perPallet);
  const late = index.late.get(job.id);
  const hold = holdOf(index, run);
  return {
    title: [job.id, job.name].filter(Boolean).join(' '),
    subtitle: `op ${[operation.id, operation.name].filter(Boolean).join(' ')}, run ${need.number} of ${many}`,
    late: late === undefined ? null : `Late by ${lengthText(late.lateBy)}`,
    facts: [
      { term: 'Machine', words: machineName(index, run.machine) },
      { term: 'Pallet', words: run.pallet ?? 'none needed' },
      { term: 'Parts', words: partsText(need.firstPart, need.parts, job.quantity) },
      ...(run.work === null ? cutFacts(index, run) : [attended(index, 'Work', run.work)]),
      ...repeatFacts(need),
      ...oddsFacts(index, run, need),
      ...(hold === null ? [] : [{ term: 'Held', words: `${spanText(index, hold)} for the first piece` }]),
      ...(run.check === null ? [] : [attended(index, 'Check', run.check)]),
      ...(run.unload === null ? [] : [attended(index, 'Unload', run.unload)]),
      { term: 'Due', words: dueText(index, job.id, job.due) },
      ...lockFacts(index, id),
    ],
  };
}

function cutFacts(index: PlanIndex, run: PlannedRun): Facts['facts'] {
  const load = run.load === null ? { term: 'Load', words: 'nothing to load' } : attended(index, 'Load', run.load);
  const alone = index.view.report.stretches.filter((stretch) => !stretch.attended);
  const unattended = coverage(intersect([run], alone));
  const cut = { term: 'Cut', words: `${spanText(index, run)}, ${lengthText(run.end - run.start)}` };
  return unattended === 0 ? [load, cut] : [load, cut, { term: 'Alone', words: `${lengthText(unattended)} of the cut` }];
}

/** What of machine, pallet and start is locked, and what is in the way of it. */
function lockFacts(index: PlanIndex, run: string): Facts['facts'] {
  const entry = index.floor.get(run);
  const clash = index.clashes.get(run);
  const start = entry?.start == null ? null : whenText(index, minuteOf(index.clock, entry.start));
  const to = [entry?.machine, entry?.pallet, start].filter((part) => part != null).map((part) => `to ${part}`);
  return [
    ...(entry?.state === 'locked' ? [{ term: 'Lock', words: ['Locked', to.join(', ')].join(' ').trim() }] : []),
    ...(clash === undefined ? [] : [{ term: 'Conflict', words: clash }]),
  ];
}

function attended(index: PlanIndex, term: string, attendance: Attendance): { term: string; words: string } {
  return { term, words: `${personName(index, attendance.person)}, ${spanText(index, attendance)}` };
}

function dueText(index: PlanIndex, job: string, due: string): string {
  const late = index.late.get(job);
  const finish = late === undefined ? index.finish.get(job) : late.finish;
  const dueWords = whenText(index, minuteOf(index.clock, due));
  if (finish === undefined) return dueWords;
  if (finish === null) return `${dueWords}; does not fit before the plan ends`;
  return `${dueWords}; job finishes ${whenText(index, finish)}`;
}

/** What its checks may add; entered, so it can be put right. */
function repeatFacts({ repeats, operation }: RunNeed): Facts['facts'] {
  if (operation.checks.every(({ chance, repeat }) => chance === 0 || repeat === 0)) return [];
  const most = mostRepeatMinutes(operation.checks);
  return [{ term: 'Repeats', words: `${lengthText(repeats)} planned, ${lengthText(most)} at most` }];
}

/**
 * Why it stands where it stands in the night: what brings most good hours for its odds to block the machine goes first
 * (p·h / (1 - p): J. Scheduling 12, 2009), as far as nothing else decides.
 */
function oddsFacts(index: PlanIndex, run: PlannedRun, { operation }: RunNeed): Facts['facts'] {
  const { block, loss } = operation.odds;
  const night = index.view.report.tonight;
  if (block + loss === 0) return [];
  const odds = `${percentText(block)} to stop the machine, ${percentText(loss)} to lose the pallet`;
  const minutes = night === null ? 0 : coverage(intersect([run], [night]));
  if (minutes === 0 || block === 0) return [{ term: 'Odds', words: odds }];
  const worth = (((1 - block) * (1 - loss)) / block) * (minutes / 60);
  return [
    { term: 'Odds', words: odds },
    { term: 'Tonight', words: `${worth.toFixed(0)} good hours for each stop; what brings most of them goes first` },
  ];
}

function percentText(share: number): string {
  return `${(100 * share).toFixed(share < 0.1 ? 1 : 0)} %`;
}

function careFacts(index: PlanIndex, machine: string, start: Minute): Facts | null {
  const care = index.view.plan.care.find((one) => one.machine === machine && one.start === start);
  if (care === undefined) return null;
  const acts = care.acts.map(({ tool, sister, act }) => `${act} ${tool} (${sister + 1})`);
  return {
    title: `${machineName(index, machine)}: tools`,
    subtitle: acts.join(', '),
    late: null,
    facts: [attended(index, 'Who', care)],
  };
}

function gapFacts(index: PlanIndex, machine: string, start: Minute): Facts | null {
  const gap = index.view.report.machines
    .find((report) => report.machine === machine)
    ?.gaps.find((candidate) => candidate.start === start);
  if (gap === undefined) return null;
  return {
    title: `${machineName(index, machine)}: ${REASON_WORDS[gap.reason]}`,
    subtitle: gap.say,
    late: null,
    facts: [
      { term: 'From', words: spanText(index, gap) },
      { term: 'For', words: lengthText(gap.end - gap.start) },
    ],
  };
}

function partsText(firstPart: number, parts: number, quantity: number): string {
  if (parts === 1) return `part ${firstPart + 1} of ${quantity}`;
  return `${firstPart + 1} to ${firstPart + parts} of ${quantity}`;
}

/** Within this many minutes of the plan's moment a weekday says which day is meant. */
const NEAR_MIN = 6 * 1440;

/** `Wed 22:05`, or `Wed 2 Dec 22:05` where the weekday alone could be another week's. */
export function whenText(index: PlanIndex, minute: Minute): string {
  if (Math.abs(minute - index.view.plan.now) < NEAR_MIN) return momentText(index.clock, minute);
  return `${dayText(index.clock, minute)} ${clockText(index.clock, minute)}`;
}

/** `Wed 22:05 to 23:10`, with the second day named if it is another. */
function spanText(index: PlanIndex, span: Interval): string {
  const sameDay = dayText(index.clock, span.start) === dayText(index.clock, span.end);
  const end = sameDay ? clockText(index.clock, span.end) : whenText(index, span.end);
  return `${whenText(index, span.start)} to ${end}`;
}
