import { FREE, NONE, type Problem } from '../problem';
import { machineOf, type Schedule } from './schedule';

const FREE_IT = 'lock one of them to another time or machine, or take its lock off';

/** One person's attendance at a held run. */
interface Hand {
  readonly person: number;
  readonly start: number;
  readonly end: number;
  readonly spot: number;
}

/**
 * What keeps a held run from standing where it stands beside the other held ones, or null; `noted` ones are in conflict
 * already and need no second word. Runs that are free are
 * placed around the held ones, so only held ones can be in each other's way.
 */
export function clashOf(
  problem: Problem,
  schedule: Schedule,
  run: number,
  noted: (run: number) => boolean,
): string | null {
  const [on, off] = [schedule.on[run]!, schedule.off[run]!];
  const machine = machineOf(problem, schedule, run);
  const places = problem.machinePlaces[machine]!;
  let together = 1;
  for (let other = 0; other < problem.runCount; other++) {
    if (other === run || problem.state[other] === FREE || schedule.placed[other] === 0 || noted(other)) continue;
    const name = problem.runIds[other];
    const overlaps = schedule.on[other]! < off && on < schedule.off[other]!;
    if (machineOf(problem, schedule, other) === machine && busyOverlap(problem, schedule, run, other)) {
      return `is held on ${problem.machineIds[machine]} at the same time as ${name}; ${FREE_IT}`;
    }
    if (overlaps && schedule.pallet[run] !== NONE && schedule.pallet[run] === schedule.pallet[other]) {
      const pallet = problem.palletIds[schedule.pallet[run]!];
      return `is held on pallet ${pallet} at the same time as ${name}; lock one of them to another pallet or time`;
    }
    if (overlaps && places !== NONE && problem.machinePlaces[machineOf(problem, schedule, other)] === places)
      together++;
    if (handsClash(problem, handsOf(problem, schedule, run), handsOf(problem, schedule, other))) {
      return `needs the same person as ${name} at the same time; lock one of them to another time`;
    }
  }
  if (places === NONE || together <= problem.placeLimit[places]!) return null;
  return `is held where all ${problem.placeLimit[places]} places are already taken; ${FREE_IT}`;
}

function busyOverlap(problem: Problem, schedule: Schedule, a: number, b: number): boolean {
  const isTable = problem.isTable[machineOf(problem, schedule, a)] === 1;
  const [from, to] = isTable ? [schedule.on, schedule.off] : [schedule.start, schedule.end];
  return from[a]! < to[b]! && from[b]! < to[a]!;
}

function handsOf(problem: Problem, schedule: Schedule, run: number): Hand[] {
  const machine = machineOf(problem, schedule, run);
  const [workSpot, loadSpot] = [problem.workSpot[machine]!, problem.loadSpot[machine]!];
  const hand = (person: number, start: number, length: number, spot: number): Hand[] =>
    person === NONE ? [] : [{ person, start, end: start + length, spot }];
  return [
    ...hand(schedule.loadPerson[run]!, schedule.loadStart[run]!, problem.load[run]!, loadSpot),
    ...hand(schedule.checkPerson[run]!, schedule.checkStart[run]!, problem.checkMinutes[run]!, workSpot),
    ...hand(schedule.workPerson[run]!, schedule.start[run]!, schedule.end[run]! - schedule.start[run]!, workSpot),
    ...hand(schedule.unloadPerson[run]!, schedule.unloadStart[run]!, problem.unload[run]!, loadSpot),
  ];
}

function handsClash(problem: Problem, ours: readonly Hand[], theirs: readonly Hand[]): boolean {
  const { walk, spotCount } = problem;
  return ours.some((a) =>
    theirs.some(
      (b) =>
        a.person === b.person &&
        a.start < b.end + walk[b.spot * spotCount + a.spot]! &&
        b.start < a.end + walk[a.spot * spotCount + b.spot]!,
    ),
  );
}
