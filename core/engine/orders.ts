import { NONE, type Problem } from '../problem';
import type { Recipe } from './recipe';
import type { Schedule } from './schedule';

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

/**
 * The recipe that makes an earlier schedule again as far as it still can be; `index` is its place among the board's
 * earlier ones. Runs it does not have come last and as soon as they can.
 */
export function recipeOfSchedule(problem: Problem, earlier: Schedule, index: number): Recipe {
  const at = (run: number) => (earlier.placed[run] === 1 ? earlier.start[run]! : problem.horizon);
  return {
    order: sorted(problem, (a, b) => at(a) - at(b)),
    choice: Int32Array.from(earlier.placed, (placed, run) => (placed === 1 ? earlier.option[run]! : NONE)),
    anchor: Int32Array.from(earlier.placed, (placed) => (placed === 1 ? index : NONE)),
    cares: earlier,
  };
}

/** The recipe in which every run of an order goes wherever it is through first, as soon as it can. */
export function recipeOfOrder(order: Int32Array): Recipe {
  return recipeOfSequence(order, new Int32Array(order.length).fill(NONE));
}

/** The recipe that puts every run on the option given, in this order. */
export function recipeOfSequence(order: Int32Array, option: Int32Array): Recipe {
  const { length } = order;
  return {
    order,
    choice: option,
    anchor: new Int32Array(length).fill(NONE),
    cares: null,
  };
}

function sorted(problem: Problem, compare: (a: number, b: number) => number): Int32Array {
  return Int32Array.from({ length: problem.runCount }, (_, run) => run).sort((a, b) => compare(a, b) || a - b);
}
