import { isHeld, NONE, type Problem } from '../problem';

/** What stands on the floor or is locked to a start, and everything that must be through before it. */
export function fixedRuns(problem: Problem): Uint8Array {
  const fixed = new Uint8Array(problem.runCount);
  const fix = (run: number): void => {
    if (fixed[run] === 1) return;
    fixed[run] = 1;
    const { start, items } = problem.before;
    for (let i = start[run]!; i < start[run + 1]!; i++) fix(items[i]!);
    if (problem.firstPieceRun[run] !== NONE) fix(problem.firstPieceRun[run]!);
    if (problem.follows[run] !== NONE) fix(problem.follows[run]!);
  };
  for (let run = 0; run < problem.runCount; run++) {
    const cuts = problem.optionCut.subarray(problem.optionFirst[run]!, problem.optionFirst[run + 1]!);
    // What takes no time on its machine leaves no booking to find it by.
    if (isHeld(problem, run) || cuts.includes(0)) fix(run);
  }
  return fixed;
}

/** True if no way over a third spot is shorter than the straight one, so that leaving out an attendance never lengthens a walk. */
export function isMetric({ walk, spotCount }: Problem): boolean {
  for (let a = 0; a < spotCount; a++) {
    for (let b = 0; b < spotCount; b++) {
      for (let over = 0; over < spotCount; over++) {
        if (walk[a * spotCount + over]! + walk[over * spotCount + b]! < walk[a * spotCount + b]!) return false;
      }
    }
  }
  return true;
}
