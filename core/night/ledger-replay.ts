import type { Tool, ToolAct } from '../shop';
import type { Minute } from '../time';
import { minuteOfShare, type ToolCut, type ToolQueue } from './ledger-queue';
import { type GivesNoMore, isTakenWhole, SisterTools } from './ledger-sisters';

/** A run that finds too little of a tool kind. */
export interface Shortage {
  readonly machine: string;
  readonly tool: string;
  readonly run: string;
  readonly pallet: string | null;
  /** When the run begins, or the plan's moment if it runs already. */
  readonly start: Minute;
  /**
   * When it bites: the minute of the run's cut at which the tools give out, taking their minutes as spread evenly over
   * the cut; the start where one tool has to cover the whole cut.
   */
  readonly minute: Minute;
  readonly needed: number;
  /** Of these, what there is not, were every last usable minute scraped together. */
  readonly missing: number;
}

/** A sister tool that gives no more, from a run on. */
export interface SpentTool {
  /** Which of the sister tools in the magazine, from 0. */
  readonly sister: number;
  readonly why: GivesNoMore;
  readonly run: string;
  readonly minute: Minute;
}

/** Minutes that an unattended cut could take from all sister tools at a minute. */
export interface CoursePoint {
  readonly minute: Minute;
  readonly left: number;
}

/** Which of the planned acts are done. */
export type ActsDone = (act: ToolAct) => boolean;

export interface Replay {
  readonly sisters: SisterTools;
  /** In order of time; a tool comes again if it gives out for another reason, or once it has been replaced or dressed. */
  readonly spent: readonly SpentTool[];
  /** In order of time. */
  readonly shortages: readonly Shortage[];
  /** By run that uses the kind, minutes that a cut by the same hours could still take after it. */
  readonly usableAfter: ReadonlyMap<string, number>;
  /** In order of time; between two points they change evenly, and two at one minute are a step. */
  readonly course: readonly CoursePoint[];
}

/** Reads one kind's queue on one machine as rule 8 does, with `fresh` new sister tools put in behind those there are. */
export function replay(queue: ToolQueue, tool: Tool, now: Minute, isDone: ActsDone, fresh = 0): Replay {
  const sisters = new SisterTools(queue.machine, tool, fresh);
  const spent: SpentTool[] = [];
  const shortages: Shortage[] = [];
  const usableAfter = new Map<string, number>();
  const known = new Map<number, GivesNoMore>(sisters.left.flatMap((left, i) => (left === 0 ? [[i, 'spent']] : [])));

  const course: CoursePoint[] = [];
  const note = (minute: Minute): void => {
    course.push({ minute: Math.max(now, minute), left: sisters.usable(true) });
  };

  const cut = (one: ToolCut): void => {
    const run = one.planned.run;
    for (const { minutes: needed } of one.needs.filter((need) => need.tool.id === tool.id)) {
      note(one.planned.start);
      const { passed, isShort, missing } = sisters.take(needed, one.alone);
      note(one.planned.end);
      for (const { sister, why, taken } of passed) {
        if (known.get(sister) !== why)
          spent.push({ sister, why, run, minute: minuteOfShare(one, taken / needed, now) });
        known.set(sister, why);
      }
      if (isShort) {
        const share = isTakenWhole(tool) ? 0 : 1 - missing / needed;
        shortages.push({
          machine: queue.machine.id,
          tool: tool.id,
          run,
          pallet: one.planned.pallet,
          start: Math.max(now, one.planned.start),
          minute: minuteOfShare(one, share, now),
          needed,
          missing,
        });
      }
      usableAfter.set(run, sisters.usable(one.alone));
    }
  };
  let next = 0;
  const careUntil = (minute: Minute): void => {
    for (let care = queue.care[next]; care !== undefined && care.start <= minute; care = queue.care[++next])
      for (const act of care.acts.filter((one) => one.tool === tool.id && isDone(one))) {
        note(care.end);
        sisters.act(act);
        note(care.end);
        if (act.act === 'replace' || known.get(act.sister) === 'blunt') known.delete(act.sister);
      }
  };
  note(now);
  for (const one of queue.cuts) {
    careUntil(one.planned.start);
    cut(one);
  }
  careUntil(Number.POSITIVE_INFINITY);
  return { sisters, spent, shortages, usableAfter, course };
}
