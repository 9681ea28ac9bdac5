import { FREE, LOADED, LOCKED, NO_MINUTE, NONE, type Problem } from '../problem';
import type { Attendance, Plan, PlannedRun } from '../shop';
import { emptySchedule, optionOn, type Schedule } from './schedule';

/**
 * An earlier plan as a schedule of this problem. Runs it cannot have as they were - unknown ones, on machines, pallets
 * or with people that are no more, with other hand times, begun since - are not placed.
 */
export function readSchedule(problem: Problem, plan: Plan): Schedule {
  const schedule = emptySchedule(problem);
  const runs = indices(problem.runIds);
  const names = { pallets: indices(problem.palletIds), people: indices(problem.personIds) };
  const shift = Math.round((plan.clock.origin - problem.clock.origin) / 60_000);
  for (const planned of plan.runs) {
    const run = runs.get(planned.run);
    if (run !== undefined && problem.state[run]! <= LOCKED) readRun(problem, schedule, run, planned, shift, names);
  }
  readCares(problem, schedule, plan, shift, names.people);
  return schedule;
}

/**
 * A plan as a schedule of the very problem it was made for: every run where the plan has it, what stands on the floor
 * among them. Throws a RangeError where the plan names a run, a machine or a pallet that the problem does not have.
 */
export function readWhole(problem: Problem, plan: Plan): Schedule {
  const schedule = emptySchedule(problem);
  const runs = indices(problem.runIds);
  const names = { pallets: indices(problem.palletIds), people: indices(problem.personIds) };
  for (const planned of plan.runs) {
    const run = runs.get(planned.run);
    const option = run === undefined ? NONE : optionOn(problem, run, problem.machineIds.indexOf(planned.machine));
    const pallet = planned.pallet === null ? NONE : names.pallets.get(planned.pallet);
    if (run === undefined || option === NONE || pallet === undefined) {
      throw new RangeError(`The plan has ${planned.run} on ${planned.machine}, which is not of its shop.`);
    }
    writeRunTo(schedule, run, option, pallet, planned, 0, (hand) =>
      hand === null ? NONE : (names.people.get(hand.person) ?? NONE),
    );
    // It took its place before the plan began.
    if (problem.state[run]! >= LOADED) schedule.on[run] = Math.min(schedule.start[run]!, problem.now);
  }
  readCares(problem, schedule, plan, 0, names.people);
  return schedule;
}

function readCares(
  problem: Problem,
  schedule: Schedule,
  plan: Plan,
  shift: number,
  people: ReadonlyMap<string, number>,
) {
  const { tools } = problem;
  if (tools === null) return;
  for (const [care, planned] of plan.care.slice(0, problem.careCount).entries()) {
    const machine = problem.machineIds.indexOf(planned.machine);
    const person = people.get(planned.person);
    if (machine === NONE || person === undefined || !isInCrew(problem, tools.crew[machine]!, person)) continue;
    schedule.careMachine[care] = machine;
    schedule.carePerson[care] = person;
    schedule.careStart[care] = planned.start + shift;
    schedule.careEnd[care] = planned.end + shift;
  }
}

export interface Names {
  readonly pallets: ReadonlyMap<string, number>;
  readonly people: ReadonlyMap<string, number>;
}

export function readRun(
  problem: Problem,
  schedule: Schedule,
  run: number,
  planned: PlannedRun,
  shift: number,
  names: Names,
) {
  const option = optionOn(problem, run, problem.machineIds.indexOf(planned.machine));
  if (option === NONE) return;
  const isBench = problem.isBench[problem.optionMachine[option]!] === 1;
  const [load, unload] = isBench ? [0, 0] : [problem.load[run]!, problem.unload[run]!];
  const check = isBench ? 0 : problem.checkMinutes[run]!;
  const hold = planned.start + Math.min(problem.holdAfter[run]!, problem.optionCut[option]!);
  const isTimed =
    lasts(planned.load, load) &&
    lasts(planned.unload, unload) &&
    lasts(planned.check, check) &&
    lasts(planned.work, isBench ? problem.optionCut[option]! : 0) &&
    (planned.check === null
      ? planned.end - planned.start === problem.optionCut[option]
      : planned.check.start >= hold &&
        planned.end - planned.check.end === planned.start + problem.optionCut[option]! - hold);
  const pallet = planned.pallet === null ? NONE : (names.pallets.get(planned.pallet) ?? -2);
  const isHeldElsewhere =
    problem.state[run] !== FREE &&
    ((problem.heldOption[run] !== NONE && problem.heldOption[run] !== option) ||
      (problem.heldPallet[run] !== NONE && problem.heldPallet[run] !== pallet) ||
      problem.heldStart[run] !== NO_MINUTE);
  if (!isTimed || isHeldElsewhere || !suits(problem, option, pallet)) return;
  const person = (attendance: Attendance | null): number =>
    attendance === null ? NONE : crewMember(problem, option, names.people.get(attendance.person));
  const hands = [planned.load, planned.check, planned.work, planned.unload];
  if (hands.some((attendance) => attendance !== null && person(attendance) === NONE)) return;
  writeRunTo(schedule, run, option, pallet, planned, shift, person);
}

export function writeRunTo(
  schedule: Schedule,
  run: number,
  option: number,
  pallet: number,
  planned: PlannedRun,
  shift: number,
  person: (attendance: Attendance | null) => number,
): void {
  const begin = (attendance: Attendance | null): number => (attendance === null ? NONE : attendance.start + shift);
  schedule.placed[run] = 1;
  schedule.option[run] = option;
  schedule.pallet[run] = pallet;
  schedule.loadPerson[run] = person(planned.load);
  schedule.loadStart[run] = begin(planned.load);
  schedule.start[run] = planned.start + shift;
  schedule.checkPerson[run] = person(planned.check);
  schedule.checkStart[run] = begin(planned.check);
  schedule.end[run] = planned.end + shift;
  schedule.workPerson[run] = person(planned.work);
  schedule.unloadPerson[run] = person(planned.unload);
  schedule.unloadStart[run] = begin(planned.unload);
  schedule.on[run] = (planned.load?.start ?? planned.start) + shift;
  schedule.off[run] = (planned.unload?.end ?? planned.end) + shift;
}

function indices(ids: readonly string[]): Map<string, number> {
  return new Map(ids.map((id, index) => [id, index]));
}

function lasts(attendance: Attendance | null, minutes: number): boolean {
  return (attendance === null ? 0 : attendance.end - attendance.start) === minutes;
}

function suits(problem: Problem, option: number, pallet: number): boolean {
  const set = problem.optionPallets[option]!;
  if (set === NONE) return pallet === NONE;
  return problem.palletSets.items
    .subarray(problem.palletSets.start[set]!, problem.palletSets.start[set + 1]!)
    .includes(pallet);
}

function crewMember(problem: Problem, option: number, person: number | undefined): number {
  return person !== undefined && isInCrew(problem, problem.optionCrew[option]!, person) ? person : NONE;
}

function isInCrew({ crews }: Problem, crew: number, person: number): boolean {
  return crews.items.subarray(crews.start[crew]!, crews.start[crew + 1]!).includes(person);
}
