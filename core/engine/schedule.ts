import type { Problem } from '../problem';

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
}

export function emptySchedule(problem: Problem): Schedule {
  const column = () => new Int32Array(problem.runCount).fill(-1);
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
  };
}
