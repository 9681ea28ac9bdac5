import { NO_MINUTE, NONE, type Problem } from '../problem';

/** Where and when each run goes, one array per fact, indexed by run; -1 where a run has no such attendance. */
export interface Schedule {
  /** 1 once the run has its place in the plan. */
  readonly placed: Uint8Array;
  readonly option: Int32Array;
  readonly pallet: Int32Array;
  readonly loadPerson: Int32Array;
  readonly loadStart: Int32Array;
  readonly start: Int32Array;
  readonly checkPerson: Int32Array;
  readonly checkStart: Int32Array;
  readonly end: Int32Array;
  /** At a bench the person who works. */
  readonly workPerson: Int32Array;
  readonly unloadPerson: Int32Array;
  readonly unloadStart: Int32Array;
  /** Place and pallet are taken from `on` to `off`. */
  readonly on: Int32Array;
  readonly off: Int32Array;
  /** 1 for runs that are held and short of a tool, which nobody can mend: they take what there is. */
  readonly isShort: Uint8Array;
  /** Attendances to tools, by number: the machine whose tools are attended to, or NONE for none of that number. */
  readonly careMachine: Int32Array;
  readonly carePerson: Int32Array;
  readonly careStart: Int32Array;
  readonly careEnd: Int32Array;
}

/** The minute from which a run may be on: what comes before it on its parts is off, as far as it is placed, and it is released. */
export function earliestOn(problem: Problem, schedule: Schedule, run: number): number {
  let on = problem.earliest[run]!;
  const { start, items } = problem.before;
  for (let i = start[run]!; i < start[run + 1]!; i++) {
    const previous = items[i]!;
    if (schedule.placed[previous] === 1) on = Math.max(on, schedule.off[previous]! + problem.lag[run]!);
  }
  return on;
}

/**
 * The machine a run must be on because one it is locked behind is placed there, or one that is held to a start and is tied
 * to it by such locks; NONE where that leaves it free.
 */
export function boundMachine(problem: Problem, schedule: Schedule, run: number): number {
  let first = run;
  while (problem.follows[first] !== NONE) {
    first = problem.follows[first]!;
    if (schedule.placed[first] === 1) return machineOf(problem, schedule, first);
  }
  return heldBehind(problem, schedule, first, run);
}

function heldBehind(problem: Problem, schedule: Schedule, first: number, but: number): number {
  const { start, items } = problem.followers;
  for (let i = start[first]!; i < start[first + 1]!; i++) {
    const run = items[i]!;
    const isHeld = run !== but && problem.heldStart[run] !== NO_MINUTE && schedule.placed[run] === 1;
    const machine = isHeld ? machineOf(problem, schedule, run) : heldBehind(problem, schedule, run, but);
    if (machine !== NONE) return machine;
  }
  return NONE;
}

/** The machine a placed run is on. */
export function machineOf(problem: Problem, schedule: Schedule, run: number): number {
  return problem.optionMachine[schedule.option[run]!]!;
}

/** The option of a run on a machine, or NONE. */
export function optionOn(problem: Problem, run: number, machine: number): number {
  for (let option = problem.optionFirst[run]!; option < problem.optionFirst[run + 1]!; option++) {
    if (problem.optionMachine[option] === machine) return option;
  }
  return NONE;
}

export function emptySchedule(problem: Problem): Schedule {
  const column = () => new Int32Array(problem.runCount).fill(-1);
  const cares = () => new Int32Array(problem.careCount).fill(-1);
  return {
    placed: new Uint8Array(problem.runCount),
    option: column(),
    pallet: column(),
    loadPerson: column(),
    loadStart: column(),
    start: column(),
    checkPerson: column(),
    checkStart: column(),
    end: column(),
    workPerson: column(),
    unloadPerson: column(),
    unloadStart: column(),
    on: column(),
    off: column(),
    isShort: new Uint8Array(problem.runCount),
    careMachine: cares(),
    carePerson: cares(),
    careStart: cares(),
    careEnd: cares(),
  };
}

export function copySchedule(from: Schedule, to: Schedule): void {
  to.placed.set(from.placed);
  to.option.set(from.option);
  to.pallet.set(from.pallet);
  to.loadPerson.set(from.loadPerson);
  to.loadStart.set(from.loadStart);
  to.start.set(from.start);
  to.checkPerson.set(from.checkPerson);
  to.checkStart.set(from.checkStart);
  to.end.set(from.end);
  to.workPerson.set(from.workPerson);
  to.unloadPerson.set(from.unloadPerson);
  to.unloadStart.set(from.unloadStart);
  to.on.set(from.on);
  to.off.set(from.off);
  to.isShort.set(from.isShort);
  to.careMachine.set(from.careMachine);
  to.carePerson.set(from.carePerson);
  to.careStart.set(from.careStart);
  to.careEnd.set(from.careEnd);
}

export function cloneSchedule(problem: Problem, schedule: Schedule): Schedule {
  const clone = emptySchedule(problem);
  copySchedule(schedule, clone);
  return clone;
}

/** Copies where one run is, or that it is nowhere. */
export function copyRun(from: Schedule, to: Schedule, run: number): void {
  to.placed[run] = from.placed[run]!;
  to.option[run] = from.option[run]!;
  to.pallet[run] = from.pallet[run]!;
  to.loadPerson[run] = from.loadPerson[run]!;
  to.loadStart[run] = from.loadStart[run]!;
  to.start[run] = from.start[run]!;
  to.checkPerson[run] = from.checkPerson[run]!;
  to.checkStart[run] = from.checkStart[run]!;
  to.end[run] = from.end[run]!;
  to.workPerson[run] = from.workPerson[run]!;
  to.unloadPerson[run] = from.unloadPerson[run]!;
  to.unloadStart[run] = from.unloadStart[run]!;
  to.on[run] = from.on[run]!;
  to.off[run] = from.off[run]!;
}

/** Copies one attendance to tools, or that there is none. */
export function copyCare(from: Schedule, to: Schedule, care: number): void {
  to.careMachine[care] = from.careMachine[care]!;
  to.carePerson[care] = from.carePerson[care]!;
  to.careStart[care] = from.careStart[care]!;
  to.careEnd[care] = from.careEnd[care]!;
}
