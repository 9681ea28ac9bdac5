import { NONE, type Problem } from '../problem';
import type { Attendance, Plan, PlanBound, PlannedRun, ToolAct, ToolCare } from '../shop';
import { Attendances } from './attendances';
import type { Pricer } from './cost';
import type { Conflict } from './held';
import type { Schedule } from './schedule';
import type { LedgerAct } from './tool-ledger';

/** The plan of a schedule, in the shop's names; runs in order of start. */
export function writePlan(
  problem: Problem,
  schedule: Schedule,
  acts: readonly LedgerAct[],
  conflicts: readonly Conflict[],
  pricer: Pricer,
  bound: PlanBound | null,
  search: Plan['search'],
): Plan {
  const runs: PlannedRun[] = [];
  const left: Plan['left'] = [];
  for (let run = 0; run < problem.runCount; run++) {
    if (schedule.placed[run] === 1) runs.push(writeRun(problem, schedule, run));
    else left.push({ run: problem.runIds[run]!, why: whyLeft(problem, schedule, run) });
  }
  runs.sort((a, b) => a.start - b.start || (a.run < b.run ? -1 : 1));
  pricer.price(schedule, attendancesByPerson(problem, schedule));
  return {
    format: 'nightload-plan',
    version: 1,
    shop: problem.shop.name,
    clock: { ...problem.clock },
    now: problem.now,
    horizon: problem.horizon,
    runs,
    care: writeCares(problem, schedule, acts),
    left,
    conflicts: conflicts.map(({ run, say }) => ({ run: problem.runIds[run]!, say })),
    cost: pricer.parts(),
    bound,
    search,
  };
}

export function writeRun(problem: Problem, schedule: Schedule, run: number): PlannedRun {
  const attendance = (person: number, start: number, length: number): Attendance | null =>
    person === NONE ? null : { person: problem.personIds[person]!, start, end: start + length };
  const pallet = schedule.pallet[run]!;
  const [start, end] = [schedule.start[run]!, schedule.end[run]!];
  return {
    run: problem.runIds[run]!,
    machine: problem.machineIds[problem.optionMachine[schedule.option[run]!]!]!,
    pallet: pallet === NONE ? null : problem.palletIds[pallet]!,
    load: attendance(schedule.loadPerson[run]!, schedule.loadStart[run]!, problem.load[run]!),
    start,
    end,
    check: attendance(schedule.checkPerson[run]!, schedule.checkStart[run]!, problem.checkMinutes[run]!),
    work: attendance(schedule.workPerson[run]!, start, end - start),
    unload: attendance(schedule.unloadPerson[run]!, schedule.unloadStart[run]!, problem.unload[run]!),
  };
}

export function writeCares(problem: Problem, schedule: Schedule, acts: readonly LedgerAct[]): ToolCare[] {
  const { tools, shop } = problem;
  if (tools === null) return [];
  const cares = new Map<number, ToolAct[]>();
  for (const { care, kind, sister, isDressing } of acts) {
    const done = cares.get(care) ?? [];
    done.push({ tool: shop.tools[tools.tool[kind]!]!.id, sister, act: isDressing ? 'dress' : 'replace' });
    cares.set(care, done);
  }
  const written = Array.from(cares, ([care, done]) => ({
    machine: problem.machineIds[schedule.careMachine[care]!]!,
    person: problem.personIds[schedule.carePerson[care]!]!,
    start: schedule.careStart[care]!,
    end: schedule.careEnd[care]!,
    acts: done,
  }));
  return written.sort((a, b) => a.start - b.start || (a.machine < b.machine ? -1 : 1));
}

function whyLeft(problem: Problem, schedule: Schedule, run: number): string {
  const { start, items } = problem.before;
  for (let i = start[run]!; i < start[run + 1]!; i++) {
    if (schedule.placed[items[i]!] === 0) return `${problem.runIds[items[i]!]}, which comes before it, is left out`;
  }
  const first = problem.follows[run]!;
  if (first !== NONE && schedule.placed[first] === 0) {
    return `${problem.runIds[first]}, which it is locked behind, is left out`;
  }
  return 'no room before the horizon on any of its machines';
}

/** Everybody's attendances as they are planned, in order of start, overlapping ones (locks that cannot hold) apart. */
function attendancesByPerson(problem: Problem, schedule: Schedule): Attendances[] {
  const lists: { start: number; end: number; spot: number }[][] = problem.personIds.map(() => []);
  for (let run = 0; run < problem.runCount; run++) {
    if (schedule.placed[run] === 0) continue;
    const machine = problem.optionMachine[schedule.option[run]!]!;
    const [workSpot, loadSpot] = [problem.workSpot[machine]!, problem.loadSpot[machine]!];
    const add = (person: number, start: number, length: number, spot: number) => {
      if (person !== NONE) lists[person]!.push({ start, end: start + length, spot });
    };
    add(schedule.loadPerson[run]!, schedule.loadStart[run]!, problem.load[run]!, loadSpot);
    add(schedule.checkPerson[run]!, schedule.checkStart[run]!, problem.checkMinutes[run]!, workSpot);
    add(schedule.workPerson[run]!, schedule.start[run]!, schedule.end[run]! - schedule.start[run]!, workSpot);
    add(schedule.unloadPerson[run]!, schedule.unloadStart[run]!, problem.unload[run]!, loadSpot);
  }
  for (let care = 0; care < problem.careCount; care++) {
    const machine = schedule.careMachine[care]!;
    if (machine === NONE) continue;
    const [start, end] = [schedule.careStart[care]!, schedule.careEnd[care]!];
    lists[schedule.carePerson[care]!]!.push({ start, end, spot: problem.workSpot[machine]! });
  }
  return lists.map((list) => {
    const attendances = new Attendances(problem.walk, problem.spotCount);
    attendances.fill(list.sort((a, b) => a.start - b.start || a.end - b.end));
    return attendances;
  });
}
