import { FINISHED, FREE, LOADED, LOCKED, NO_MINUTE, NONE, type Problem, RUNNING } from '../problem';
import { take } from './book';
import { clashOf } from './clash';
import { obstacleAtStart, whatIsWrong, whyApart } from './obstacles';
import { Placement } from './placement';
import { boundMachine, earliestOn, optionOn, type Schedule } from './schedule';
import { NEVER, type Slots } from './slots';

/** A lock that cannot hold, and what is in its way. */
export interface Conflict {
  readonly run: number;
  readonly say: string;
}

/**
 * Puts down what stands on the floor and what is locked to a start, before anything else. They stay where they are said
 * to be even where that cannot be; then the conflict is noted. `equipLoaded` is called when all of it is there, and then
 * `placeBefore` for each locked run, to place what must come before it: what is loaded may first have to wait for its tools.
 */
export function placeHeld(
  problem: Problem,
  slots: Slots,
  schedule: Schedule,
  conflicts: Conflict[],
  equipLoaded: () => void,
  placeBefore: (run: number) => void,
): void {
  const inState = (wanted: (run: number) => boolean) =>
    Array.from(problem.state.keys()).filter((run) => problem.state[run] !== FREE && wanted(run));
  for (const run of inState((r) => problem.state[r] === RUNNING || problem.state[r] === FINISHED)) {
    onFloor(problem, slots, schedule, conflicts, run);
  }
  const locked = inState((run) => isLockedToStart(problem, run));
  locked.sort((a, b) => problem.heldStart[a]! - problem.heldStart[b]! || a - b);
  for (const run of locked) lockedToStart(problem, slots, schedule, conflicts, run);
  // What is loaded can wait for a lock, and what precedes a lock must find its room beside it.
  for (const run of inState((r) => problem.state[r] === LOADED))
    loadedOnFloor(problem, slots, schedule, conflicts, run);
  equipLoaded();
  for (const run of locked) placeBefore(run);
}

function isLockedToStart(problem: Problem, run: number): boolean {
  return problem.state[run] === LOCKED && problem.heldStart[run] !== NO_MINUTE;
}

/** Adds a conflict for every held run that its pallet, machine, route or order, or another one, does not let stand. */
export function noteConflicts(problem: Problem, schedule: Schedule, conflicts: Conflict[]): void {
  const noted = (run: number) => conflicts.some((conflict) => conflict.run === run);
  for (let run = 0; run < problem.runCount; run++) {
    if (problem.state[run] === FREE || schedule.placed[run] === 0 || noted(run)) continue;
    const say = whatIsWrong(problem, schedule, run) ?? clashOf(problem, schedule, run, noted);
    if (say !== null) conflicts.push({ run, say: `${problem.runIds[run]} ${say}` });
  }
  for (const [run, first] of problem.apart) {
    if (!noted(run)) conflicts.push({ run, say: `${problem.runIds[run]} ${whyApart(problem, run, first)}` });
  }
}

const nobody = () => ({ person: NONE, start: 0, end: 0, spot: 0 });

function onFloor(problem: Problem, slots: Slots, schedule: Schedule, conflicts: Conflict[], run: number): void {
  const at = new Placement(problem, slots, schedule);
  const option = problem.heldOption[run]!;
  const machine = problem.optionMachine[option]!;
  const cut = problem.optionCut[option]!;
  const { now } = problem;
  at.option = option;
  at.pallet = problem.optionPallets[option] === NONE ? NONE : problem.heldPallet[run]!;
  if (problem.state[run] === FINISHED) {
    at.end = problem.heldEnd[run] === NO_MINUTE ? now : problem.heldEnd[run]!;
    at.start = problem.heldStart[run] === NO_MINUTE ? at.end - cut : problem.heldStart[run]!;
  } else {
    at.start = problem.heldStart[run]!;
    at.end = Math.max(at.start + cut, now);
    if (problem.isBench[machine] === 1) {
      at.workPerson = firstOfCrew(problem, option);
    } else if (problem.checkMinutes[run]! > 0) {
      const before = Math.min(problem.holdAfter[run]!, cut);
      const from = Math.max(at.start + before, now);
      const check = problem.checkMinutes[run]!;
      const spot = problem.workSpot[machine]!;
      const found = slots.crewFrom(problem.optionCrew[option]!, from, check, spot, NONE, nobody(), NONE);
      at.checkStart = found < NEVER ? found : from;
      at.checkPerson = found < NEVER ? slots.person : firstOfCrew(problem, option);
      if (found >= NEVER) {
        const say = `${problem.runIds[run]} is running, but nobody can check its first piece; give somebody with the skill hours`;
        conflicts.push({ run, say });
      }
      at.end = at.checkStart + check + cut - before;
    }
  }
  at.on = Math.min(at.start, now);
  if (!takeOff(problem, at, run)) {
    conflicts.push({
      run,
      say: `${problem.runIds[run]} is on ${problem.machineIds[machine]}, but nobody can take it off; give somebody with the skill hours`,
    });
  }
  at.writeTo(schedule, run);
  take(problem, slots, schedule, run);
}

/** Takes a held run off; where nobody ever can, the first of the crew does it at once, and false is returned. */
function takeOff(problem: Problem, at: Placement, run: number): boolean {
  const from = Math.max(at.end, problem.now);
  if (at.takeOff(run, from)) return true;
  at.unloadPerson = firstOfCrew(problem, at.option);
  at.unloadStart = from;
  at.off = from + problem.unload[run]!;
  return false;
}

function firstOfCrew(problem: Problem, option: number): number {
  const { start, items } = problem.crews;
  const crew = problem.optionCrew[option]!;
  return start[crew] === start[crew + 1] ? NONE : items[start[crew]!]!;
}

function loadedOnFloor(problem: Problem, slots: Slots, schedule: Schedule, conflicts: Conflict[], run: number): void {
  const at = new Placement(problem, slots, schedule);
  const { now } = problem;
  const option = problem.heldOption[run]!;
  const pallet = problem.heldPallet[run]!;
  if (!at.find(run, option, now, now, pallet, true)) {
    // No room before the horizon: it keeps its place, and the lead is told.
    at.start = now;
    at.end = now + problem.optionCut[option]!;
    at.on = now;
    takeOff(problem, at, run);
    conflicts.push({
      run,
      say: `${problem.runIds[run]} is loaded, but its machine or the hands it needs are not free before the horizon; open the machine, or plan more days ahead`,
    });
  }
  at.writeTo(schedule, run);
  take(problem, slots, schedule, run);
}

/** Puts a run down at the start it is locked to. */
export function lockedToStart(
  problem: Problem,
  slots: Slots,
  schedule: Schedule,
  conflicts: Conflict[],
  run: number,
): void {
  const start = problem.heldStart[run]!;
  const at = new Placement(problem, slots, schedule);
  const { first, last } = optionsOf(problem, schedule, run);
  // Locked runs go down in order of start, so predecessors locked as well are there already.
  const on = earliestOn(problem, schedule, run);
  for (let option = first; option < last; option++) {
    if (at.find(run, option, on, start, problem.heldPallet[run]!, false) && at.start === start) {
      at.writeTo(schedule, run);
      take(problem, slots, schedule, run);
      return;
    }
  }
  conflicts.push({ run, say: forced(problem, slots, schedule, at, run, first) });
  at.writeTo(schedule, run);
  take(problem, slots, schedule, run);
}

function optionsOf(problem: Problem, schedule: Schedule, run: number): { first: number; last: number } {
  const bound = boundMachine(problem, schedule, run);
  const only = bound === NONE ? problem.heldOption[run]! : optionOn(problem, run, bound);
  return only === NONE
    ? { first: problem.optionFirst[run]!, last: problem.optionFirst[run + 1]! }
    : { first: only, last: only + 1 };
}

/** The run at its locked start whatever is in the way; returns what that is. */
function forced(
  problem: Problem,
  slots: Slots,
  schedule: Schedule,
  at: Placement,
  run: number,
  option: number,
): string {
  const machine = problem.optionMachine[option]!;
  const start = problem.heldStart[run]!;
  const cut = problem.optionCut[option]!;
  const crew = problem.optionCrew[option]!;
  const isBench = problem.isBench[machine] === 1;
  const load = isBench ? 0 : problem.load[run]!;
  const check = isBench ? 0 : problem.checkMinutes[run]!;
  at.option = option;
  at.loadPerson = at.loadStart = at.checkPerson = at.checkStart = at.workPerson = NONE;
  at.unloadPerson = at.unloadStart = NONE;
  at.start = start;
  at.end = start + cut;
  let handsMissing: string | null = null;
  if (isBench) {
    const found = slots.crewFrom(crew, start, cut, problem.workSpot[machine]!, NONE, nobody(), NONE);
    at.workPerson = firstOfCrew(problem, option);
    if (found !== start) handsMissing = 'nobody is free to work on it then';
  }
  if (load > 0) {
    const isTable = problem.isTable[machine] === 1;
    const spot = problem.loadSpot[machine]!;
    const station = problem.machineStations[machine]!;
    const notBefore = isTable ? start - load : problem.now;
    const found = slots.crewUntil(crew, notBefore, start, load, spot, station, nobody(), NONE);
    at.loadStart = found < 0 ? start - load : found;
    at.loadPerson = found < 0 ? firstOfCrew(problem, option) : slots.person;
    if (found < 0) handsMissing = 'nobody is free to load it before then';
  }
  if (check > 0) {
    const before = Math.min(problem.holdAfter[run]!, cut);
    const found = slots.crewFrom(crew, start + before, check, problem.workSpot[machine]!, NONE, nobody(), NONE);
    at.checkStart = found < NEVER ? found : start + before;
    at.checkPerson = found < NEVER ? slots.person : firstOfCrew(problem, option);
    at.end = at.checkStart + check + cut - before;
    if (found >= NEVER) handsMissing ??= 'nobody is free to check its first piece';
  }
  at.on = load > 0 ? at.loadStart : start;
  if (!takeOff(problem, at, run)) handsMissing ??= 'nobody is free to take it off';
  at.pallet = palletFor(problem, slots, at, run, option);
  return `${problem.runIds[run]} ${obstacleAtStart(problem, slots, schedule, at, run, handsMissing)}`;
}

function palletFor(problem: Problem, slots: Slots, at: Placement, run: number, option: number): number {
  const set = problem.optionPallets[option]!;
  if (set === NONE) return NONE;
  if (problem.heldPallet[run] !== NONE) return problem.heldPallet[run]!;
  const { start, items } = problem.palletSets;
  const fitting = items.subarray(start[set]!, start[set + 1]!);
  return fitting.find((pallet) => slots.pallets[pallet]!.isFree(at.on, at.off)) ?? fitting[0] ?? NONE;
}
