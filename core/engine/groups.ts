import { FINISHED, LOCKED, NONE, type Problem, RUNNING } from '../problem';

/** One machine that a group may take, with what all its runs together need there. */
export interface GroupOption {
  readonly machine: number;
  readonly crew: number;
  readonly fixture: number;
  /** Machine minutes still to cut, all runs together; at a bench hand minutes. */
  readonly cut: number;
}

/** Runs that nothing tells apart: of one operation of one job with as many parts, or a single one that is held. */
export interface Group {
  readonly job: number;
  readonly step: number;
  readonly runs: readonly number[];
  /** Share of the job's parts. */
  readonly share: number;
  readonly earliest: number;
  readonly lag: number;
  /** Hand minutes of loading and of unloading, all runs together. */
  readonly handsBefore: number;
  readonly handsAfter: number;
  readonly options: readonly GroupOption[];
}

/** Fixture kinds are numbered by the first pallet that carries them; NONE where no pallet is needed. */
function fixtureOf(problem: Problem, option: number): number {
  const set = problem.optionPallets[option]!;
  if (set === NONE) return NONE;
  const first = problem.palletSets.items[problem.palletSets.start[set]!];
  if (first === undefined) return NONE;
  const { pallets } = problem.shop;
  return pallets.findIndex((p) => p.fixture === pallets[first]!.fixture);
}

/** All groups with something left to cut, in the order of the problem's. */
export function groupsOf(problem: Problem): Group[] {
  const members: number[][] = Array.from({ length: problem.groupCount }, () => []);
  for (let run = 0; run < problem.runCount; run++) members[problem.runGroup[run]!]!.push(run);
  return members.filter((runs) => problem.state[runs[0]!] !== FINISHED).map((runs) => groupOf(problem, runs));
}

function groupOf(problem: Problem, runs: readonly number[]): Group {
  const first = runs[0]!;
  const job = problem.runJob[first]!;
  const isLoaded = problem.state[first]! > LOCKED;
  const sum = (value: (run: number) => number) => runs.reduce((total, run) => total + value(run), 0);
  const options: GroupOption[] = [];
  for (let option = problem.optionFirst[first]!; option < problem.optionFirst[first + 1]!; option++) {
    const held = problem.heldOption[first]!;
    const isHeldHere = isLoaded || (held !== NONE && problem.isForeign[held] === 1);
    if (isHeldHere && option !== held) continue;
    // Runs alike have the same options in the same order.
    const nth = option - problem.optionFirst[first]!;
    options.push({
      machine: problem.optionMachine[option]!,
      crew: problem.optionCrew[option]!,
      fixture: fixtureOf(problem, option),
      cut: sum((run) => remainingCut(problem, run, problem.optionFirst[run]! + nth)),
    });
  }
  return {
    job,
    step: problem.groupStep[problem.runGroup[first]!]!,
    runs,
    share: sum((run) => problem.runParts[run]!) / problem.shop.jobs[job]!.quantity,
    earliest: runs.reduce((least, run) => Math.min(least, problem.earliest[run]!), 0x3fffffff),
    lag: problem.lag[first]!,
    handsBefore: isLoaded ? 0 : sum((run) => problem.load[run]!),
    handsAfter: sum((run) => problem.unload[run]!),
    options,
  };
}

function remainingCut(problem: Problem, run: number, option: number): number {
  const cut = problem.optionCut[option]!;
  if (problem.state[run] !== RUNNING) return cut;
  return Math.max(0, problem.heldStart[run]! + cut - problem.now);
}
