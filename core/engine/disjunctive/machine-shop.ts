import { FREE, NONE, type Problem } from '../../problem';

/**
 * The part of the model in which nothing but machines, and perhaps operators, is scarce: no pallets or places, machines
 * open and people there throughout, each run with at most one before and one after it, and either no run needs hands or
 * every run needs somebody from beginning to end. Times count from the plan's moment.
 */
export interface MachineShop {
  readonly count: number;
  readonly machines: number;
  /** Interchangeable people, one of whom every run needs throughout; 0 if no run needs any. */
  readonly operators: number;
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
  if (problem.runCount === 0 || problem.tools !== null || !isFinishOnly(problem)) return null;
  if (problem.optionAlone.some((minutes) => minutes < problem.horizon) || problem.suspects.some((parts) => parts > 0)) {
    return null;
  }
  const operators = operatorsOf(problem);
  if (operators === null) return null;
  const before = new Int32Array(problem.runCount);
  const after = new Int32Array(problem.runCount);
  for (let run = 0; run < problem.runCount; run++) {
    if (!isUnbound(problem, run)) return null;
    const [previous, next] = [rowOf(problem.before, run), rowOf(problem.after, run)];
    if (previous.length > 1 || next.length > 1) return null;
    before[run] = previous[0] ?? NONE;
    after[run] = next[0] ?? NONE;
  }
  return {
    count: problem.runCount,
    machines: problem.machineCount,
    operators,
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

/** No run at a bench: 0. Every run at a bench, and everybody able, there throughout and without a walk: their number. */
function operatorsOf(problem: Problem): number | null {
  let atBench = 0;
  for (const machine of problem.optionMachine) atBench += problem.isBench[machine]!;
  if (atBench === 0) return 0;
  const isSame = atBench === problem.optionMachine.length && problem.walk.every((minutes) => minutes === 0);
  return isSame && problem.crews.start.length === 2 && isCrewThroughout(problem) ? problem.personCount : null;
}

function isCrewThroughout(problem: Problem): boolean {
  const { first, start, end } = problem.free;
  for (let person = 0; person < problem.personCount; person++) {
    const k = first[person]!;
    if (first[person + 1] !== k + 1 || start[k] !== problem.now || end[k] !== problem.horizon) return false;
  }
  return problem.crews.items.length === problem.personCount;
}

/** Nothing held, no pallet, place or hand beside the cut itself. */
function isUnbound(problem: Problem, run: number): boolean {
  if (problem.state[run] !== FREE || problem.load[run]! + problem.unload[run]! + problem.checkMinutes[run]! > 0)
    return false;
  for (let option = problem.optionFirst[run]!; option < problem.optionFirst[run + 1]!; option++) {
    const machine = problem.optionMachine[option]!;
    if (problem.optionPallets[option] !== NONE || problem.machinePlaces[machine] !== NONE) return false;
    if (problem.isTable[machine] === 1 || !isOpenThroughout(problem, machine)) return false;
  }
  return true;
}

function isOpenThroughout(problem: Problem, machine: number): boolean {
  const { first, start, end } = problem.open;
  const k = first[machine]!;
  return first[machine + 1] === k + 1 && start[k] === problem.now && end[k] === problem.horizon;
}
