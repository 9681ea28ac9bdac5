import { FREE, NONE, type Problem } from '../../problem';

/**
 * The part of the model in which nothing but machines is scarce: no hands, pallets or places, machines open
 * throughout, each run with at most one before and one after it. Times count from the plan's moment.
 */
export interface MachineShop {
  readonly count: number;
  readonly machines: number;
  readonly before: Int32Array;
  readonly after: Int32Array;
  readonly lag: Int32Array;
  /** Not begun before. */
  readonly release: Int32Array;
  readonly optionFirst: Int32Array;
  readonly optionMachine: Int32Array;
  readonly optionCut: Int32Array;
}

/** The problem as a machine shop, or null if anything else in it is scarce or anything but the finish is priced. */
export function machineShopOf(problem: Problem): MachineShop | null {
  if (problem.runCount === 0 || !isFinishOnly(problem)) return null;
  const before = new Int32Array(problem.runCount);
  const after = new Int32Array(problem.runCount);
  for (let run = 0; run < problem.runCount; run++) {
    if (!needsMachineOnly(problem, run)) return null;
    const [previous, next] = [rowOf(problem.before, run), rowOf(problem.after, run)];
    if (previous.length > 1 || next.length > 1) return null;
    before[run] = previous[0] ?? NONE;
    after[run] = next[0] ?? NONE;
  }
  return {
    count: problem.runCount,
    machines: problem.machineCount,
    before,
    after,
    lag: problem.lag,
    release: problem.earliest.map((minute) => minute - problem.now),
    optionFirst: problem.optionFirst,
    optionMachine: problem.optionMachine,
    optionCut: problem.optionCut,
  };
}

function rowOf(rows: Problem['before'], index: number): Int32Array {
  return rows.items.subarray(rows.start[index]!, rows.start[index + 1]!);
}

function isFinishOnly(problem: Problem): boolean {
  const { finish, ...others } = problem.shop.weights;
  return finish > 0 && Object.values(others).every((weight) => weight === 0);
}

function needsMachineOnly(problem: Problem, run: number): boolean {
  if (problem.state[run] !== FREE || problem.load[run]! + problem.unload[run]! + problem.checkMinutes[run]! > 0)
    return false;
  for (let option = problem.optionFirst[run]!; option < problem.optionFirst[run + 1]!; option++) {
    const machine = problem.optionMachine[option]!;
    if (problem.optionPallets[option] !== NONE || problem.machinePlaces[machine] !== NONE) return false;
    if (problem.isBench[machine] === 1 || problem.isTable[machine] === 1 || !isOpenThroughout(problem, machine))
      return false;
  }
  return true;
}

function isOpenThroughout(problem: Problem, machine: number): boolean {
  const { first, start, end } = problem.open;
  const k = first[machine]!;
  return first[machine + 1] === k + 1 && start[k] === problem.now && end[k] === problem.horizon;
}
