import type { DryChange, LateChange, PlanComparison } from '../contract';
import { countText } from '../measure';
import { lengthText, weekdayOf } from '../time';
import { listText } from './words';

/** More of one kind than this are counted after the worst of them. */
const MOST_NAMED = 2;

/** What a lead reads first of a comparison: `most` sentences at most, the worst first. One if nothing changes. */
export function comparisonSentences(comparison: PlanComparison, most: number): string[] {
  const { late, dry, jobs } = comparison;
  const isNew = (job: string) => jobs.added.includes(job);
  const worse = late.filter((change) => isWorse(change) && !isNew(change.job));
  const better = late.filter((change) => !isWorse(change) && !isNew(change.job));
  const words = (change: DryChange) => nightText(comparison, change);
  const sentences = [
    ...named(worse, lateText, (count) => `${countText(count, 'more job')} ${verb(count, 'finish')} later.`),
    ...named(
      dry.filter(({ minutes }) => minutes < 0),
      words,
      (count) => `${countText(count, 'more machine')} ${verb(count, 'cut')} less tonight.`,
    ),
    ...named(
      late.filter(({ job }) => isNew(job)),
      newJobText,
      (count) => `${countText(count, 'more job')} ${count === 1 ? 'is' : 'are'} new.`,
    ),
    ...runTexts(comparison),
    ...named(
      dry.filter(({ minutes }) => minutes > 0),
      words,
      (count) => `${countText(count, 'more machine')} ${verb(count, 'cut')} more tonight.`,
    ),
    ...named(better, lateText, (count) => `${countText(count, 'more job')} ${verb(count, 'finish')} sooner.`),
    ...dry.filter(({ minutes }) => minutes === 0).map(words),
  ];
  return sentences.length === 0 ? ['Every run stays where it is.'].slice(0, most) : sentences.slice(0, most);
}

/** The first of them each in a sentence, the rest counted; one more than may be named is named too. */
function named<T>(changes: readonly T[], say: (change: T) => string, sayRest: (count: number) => string): string[] {
  if (changes.length <= MOST_NAMED + 1) return changes.map(say);
  return [...changes.slice(0, MOST_NAMED).map(say), sayRest(changes.length - MOST_NAMED)];
}

function verb(count: number, many: string): string {
  if (count !== 1) return many;
  return many.endsWith('sh') ? `${many}es` : `${many}s`;
}

function isWorse({ before, after }: LateChange): boolean {
  return after === null || (before !== null && after > before);
}

function lateText({ job, before, after }: LateChange): string {
  return `${job} ${isText(after)}, ${wasText(before)}.`;
}

function isText(minutes: number | null): string {
  if (minutes === null) return 'does not fit before the end of the plan';
  return minutes === 0 ? 'finishes in time' : `finishes ${lengthText(minutes)} late`;
}

function wasText(minutes: number | null): string {
  if (minutes === null) return 'did not fit';
  return minutes === 0 ? 'was in time' : `was ${lengthText(minutes)} late`;
}

function newJobText({ job, after }: LateChange): string {
  return `${job} is new and ${isText(after)}.`;
}

function nightText({ nights }: PlanComparison, { machine, before, after, minutes }: DryChange): string {
  const morning = (night: PlanComparison['nights']['before']) =>
    night === null ? 'morning' : timeText(night, night.end);
  const is = after === null ? `cuts until ${morning(nights.after)}` : `stands from ${timeText(nights.after, after)}`;
  const was = before === null ? `cut until ${morning(nights.before)}` : `stood from ${timeText(nights.before, before)}`;
  if (is.replace('stands', 'stood').replace('cuts', 'cut') !== was) return `${machine} ${is}, ${was} before.`;
  return `${machine} cuts ${lengthText(Math.abs(minutes))} ${minutes < 0 ? 'less' : 'more'} tonight.`;
}

/** `02:10`, or `Sun 02:10` in a night longer than a day. */
function timeText(night: PlanComparison['nights']['before'], local: string): string {
  const [date, clock] = [local.slice(0, 10), local.slice(11)];
  const isLong = night !== null && Date.parse(`${night.end}Z`) - Date.parse(`${night.start}Z`) >= 86_400_000;
  if (!isLong) return clock;
  const day = weekdayOf(date);
  return `${day.charAt(0).toUpperCase()}${day.slice(1)} ${clock}`;
}

function runTexts({ moved, appeared, gone, jobs, displaced }: PlanComparison): string[] {
  const removed = new Set(jobs.removed);
  const out = gone.filter((run) => !removed.has(run.split('/')[0]!));
  const added = new Set(jobs.added);
  const back = appeared.filter((run) => !added.has(run.split('/')[0]!));
  const gives = displaced.tonight.filter((run) => !removed.has(run.split('/')[0]!));
  return [
    ...(out.length > 0 ? [`${countText(out.length, 'run')} no longer ${verb(out.length, 'fit')}: ${some(out)}.`] : []),
    ...(gives.length > 0
      ? [`${countText(gives.length, 'run')} of tonight ${verb(gives.length, 'give')} way: ${some(gives)}.`]
      : []),
    ...(jobs.removed.length > 0
      ? [`${listText(jobs.removed)} ${jobs.removed.length === 1 ? 'is' : 'are'} no longer there.`]
      : []),
    ...(moved.length > 0 ? [`${countText(moved.length, 'run')} ${verb(moved.length, 'move')}.`] : []),
    ...(back.length > 0 ? [`${countText(back.length, 'more run')} ${verb(back.length, 'fit')}: ${some(back)}.`] : []),
  ];
}

/** `J-104/10/1 and J-104/10/2`, or the first few and how many more. */
function some(runs: readonly string[]): string {
  if (runs.length <= MOST_NAMED + 1) return listText(runs);
  return `${runs.slice(0, MOST_NAMED).join(', ')} and ${runs.length - MOST_NAMED} more`;
}
