import { NONE, type Problem } from '../problem';
import type { Plan } from '../shop';

/** Minutes of the shortest way from the beginning of a run to the end of its job. */
function tails(problem: Problem): Int32Array {
  const tail = new Int32Array(problem.runCount).fill(NONE);
  const visit = (run: number): number => {
    if (tail[run] !== NONE) return tail[run]!;
    let after = 0;
    for (let i = problem.after.start[run]!; i < problem.after.start[run + 1]!; i++) {
      const next = problem.after.items[i]!;
      after = Math.max(after, visit(next) + problem.lag[next]!);
    }
    const cuts = problem.optionCut.subarray(problem.optionFirst[run]!, problem.optionFirst[run + 1]!);
    const cut = cuts.reduce((least, c) => Math.min(least, c), 0x3fffffff);
    tail[run] = after + cut + problem.load[run]! + problem.unload[run]! + problem.checkMinutes[run]!;
    return tail[run]!;
  };
  for (let run = 0; run < problem.runCount; run++) visit(run);
  return tail;
}

/** Runs by the latest moment at which each may begin if its job is to be in time. */
export function orderByLatestStart(problem: Problem): Int32Array {
  const tail = tails(problem);
  const slack = (run: number) => problem.due[problem.runJob[run]!]! - tail[run]!;
  return sorted(problem, (a, b) => slack(a) - slack(b));
}

/** Runs by what is left of their job after their beginning, most first: the way to a short makespan. */
export function orderByTail(problem: Problem): Int32Array {
  const tail = tails(problem);
  return sorted(problem, (a, b) => tail[b]! - tail[a]!);
}

/** Runs in the order in which an earlier plan begins them; runs it does not have come last. */
export function orderOfPlan(problem: Problem, plan: Plan): Int32Array {
  const place = new Map(plan.runs.map((planned, i) => [planned.run, i]));
  const at = (run: number) => place.get(problem.runIds[run]!) ?? plan.runs.length;
  return sorted(problem, (a, b) => at(a) - at(b));
}

function sorted(problem: Problem, compare: (a: number, b: number) => number): Int32Array {
  return Int32Array.from({ length: problem.runCount }, (_, run) => run).sort((a, b) => compare(a, b) || a - b);
}
