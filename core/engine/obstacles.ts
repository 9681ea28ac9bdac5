import { LOCKED, NONE, type Problem, RUNNING } from '../problem';
import { clockText, dayText, type Interval, lengthText } from '../time';
import { careOfBooking } from './book';
import type { Bookings } from './bookings';
import { earliestOn, machineOf, type Schedule } from './schedule';
import type { Slots } from './slots';
import type { Stay } from './stay';

/*
 * Why a lock cannot hold, each as the rest of a sentence that begins with the run: what is in the way, and what the lead
 * can do about it.
 */

const FREE_IT = 'lock it to another time or machine, or take the lock off';

/** What keeps a run that stands where it is held from being right there, other held runs apart; null if nothing does. */
export function whatIsWrong(problem: Problem, schedule: Schedule, run: number): string | null {
  const option = schedule.option[run]!;
  const machine = problem.machineIds[problem.optionMachine[option]!]!;
  if (problem.isForeign[option] === 1) {
    return problem.shop.machines[problem.optionMachine[option]!]!.inUse
      ? `is held on ${machine}, which its operation does not name; name ${machine} there, or move the run`
      : `is held on ${machine}, which is not in use; set ${machine} in use, or move the run`;
  }
  return (
    palletWrong(problem, schedule, run, machine) ??
    hoursWrong(problem, schedule, run, machine) ??
    stepWrong(problem, schedule, run) ??
    orderWrong(problem, schedule, run) ??
    aloneWrong(problem, schedule, run) ??
    checkWrong(problem, schedule, run)
  );
}

/** A run locked behind another, `first`, though no machine suits all that such locks tie together. */
export function whyApart(problem: Problem, run: number, first: string): string {
  const { optionMachine, optionFirst, machineIds } = problem;
  const options = optionMachine.subarray(optionFirst[run]!, optionFirst[run + 1]!);
  const names = Array.from(options, (machine) => machineIds[machine]!).join(' or ');
  return (
    `is locked behind ${first}, but no machine suits both and all that is locked to them; it can go on ${names}. ` +
    'Take the order off, or name the same machine in both operations'
  );
}

function palletWrong(problem: Problem, schedule: Schedule, run: number, machine: string): string | null {
  const pallet = schedule.pallet[run]!;
  if (pallet === NONE) return null;
  const { id, inUse, fixture, machines } = problem.shop.pallets[pallet]!;
  const step = problem.groupStep[problem.runGroup[run]!]!;
  const needed = problem.shop.jobs[problem.runJob[run]!]!.route[step]!.fixture;
  if (fixture !== needed || (machines.length > 0 && !machines.includes(machine))) {
    return `is held on pallet ${id}, which does not fit it on ${machine}; lock it to another pallet, or to none`;
  }
  // What is on it already comes off it as planned.
  if (inUse || problem.state[run] !== LOCKED) return null;
  return `is locked to pallet ${id}, which is withdrawn; set ${id} in use, or lock the run to another pallet`;
}

/** Only what runs now can be caught by the machine's hours; everything else is placed inside them. */
function hoursWrong(problem: Problem, schedule: Schedule, run: number, machine: string): string | null {
  const end = schedule.end[run]!;
  if (problem.state[run] !== RUNNING || end <= problem.now) return null;
  const { first, start, end: until } = problem.open;
  const m = machineOf(problem, schedule, run);
  for (let k = first[m]!; k < first[m + 1]!; k++) {
    if (start[k]! <= problem.now && until[k]! >= end) return null;
  }
  return `runs on ${machine} in time it is planned off; open ${machine} until ${at(problem, end)}`;
}

function stepWrong(problem: Problem, schedule: Schedule, run: number): string | null {
  const { start, items } = problem.before;
  for (let i = start[run]!; i < start[run + 1]!; i++) {
    const previous = items[i]!;
    const name = problem.runIds[previous];
    if (schedule.placed[previous] === 0) {
      return `is held, but ${name}, which comes before it, is left out; take the lock off`;
    }
    if (schedule.off[previous]! + problem.lag[run]! <= schedule.on[run]!) continue;
    const lag = problem.lag[run]! === 0 ? '' : `, and then waits ${lengthText(problem.lag[run]!)}`;
    return `is held before ${name}, which comes before it, is off (${at(problem, schedule.off[previous]!)}${lag}); lock it to a later start`;
  }
  return null;
}

function orderWrong(problem: Problem, schedule: Schedule, run: number): string | null {
  const first = problem.follows[run]!;
  if (first === NONE) return null;
  const name = problem.runIds[first];
  if (schedule.placed[first] === 0) {
    return `is locked behind ${name}, which is left out; take the order or the start off`;
  }
  if (schedule.start[run]! >= schedule.end[first]!) return null;
  const [start, end] = [at(problem, schedule.start[run]!), at(problem, schedule.end[first]!)];
  return `is locked behind ${name}, whose cut ends ${end}, and to start ${start}; lock it to a later start, or take the order off`;
}

/** What runs already is not asked. */
function aloneWrong(problem: Problem, schedule: Schedule, run: number): string | null {
  if (problem.state[run]! >= RUNNING) return null;
  const [option, start, end] = [schedule.option[run]!, schedule.start[run]!, schedule.end[run]!];
  const why = tooLongAlone(problem, { option, start, end });
  return why === null ? null : `is held where ${why}; lock it to a start with somebody there`;
}

function tooLongAlone(problem: Problem, { option, start, end }: Pick<Stay, 'option' | 'start' | 'end'>): string | null {
  const most = problem.optionAlone[option]!;
  const alone = (s: Interval) => Math.min(end, s.end) - Math.max(start, s.start);
  const stretch = problem.unattended.find((s) => alone(s) > most);
  if (stretch === undefined) return null;
  const earned = most === 0 ? 'has not earned to run alone' : `has earned ${lengthText(most)}`;
  return `it would cut ${lengthText(alone(stretch))} with nobody there and ${earned}`;
}

function checkWrong(problem: Problem, schedule: Schedule, run: number): string | null {
  const firstPiece = problem.firstPieceRun[run]!;
  if (firstPiece === NONE) return null;
  const name = problem.runIds[firstPiece];
  if (schedule.placed[firstPiece] === 0) {
    return `is held, but ${name}, whose first-piece check it waits for, is left out; take the lock off`;
  }
  const checked = schedule.checkStart[firstPiece]! + problem.checkMinutes[firstPiece]!;
  if (checked <= schedule.start[run]!) return null;
  return `is held before the first-piece check of ${name} is done (${at(problem, checked)}); lock it to a later start`;
}

/**
 * Why a run cannot have the start it is locked to, `stay` being where it is put nevertheless; `handsMissing` is said
 * where nobody could be found for one of its attendances.
 */
export function obstacleAtStart(
  problem: Problem,
  slots: Slots,
  schedule: Schedule,
  stay: Stay,
  run: number,
  handsMissing: string | null,
): string {
  const start = at(problem, stay.start);
  if (stay.start < problem.now) {
    return `is locked to start ${start}, which is past; lock it to a later start, or say that it is running`;
  }
  const why =
    machineTaken(problem, slots, stay) ??
    handsMissing ??
    palletTaken(problem, slots, stay, run) ??
    partsMissing(problem, schedule, stay, run) ??
    placesTaken(problem, slots, stay) ??
    tooLongAlone(problem, stay) ??
    'the hands it needs are elsewhere then, or nobody would see its parts in time';
  return `is locked to start ${start} and cannot: ${why}; ${FREE_IT}`;
}

function machineTaken(problem: Problem, slots: Slots, stay: Stay): string | null {
  const machine = problem.optionMachine[stay.option]!;
  const name = problem.machineIds[machine]!;
  const isTable = problem.isTable[machine] === 1;
  const [from, to] = isTable ? [stay.on, stay.off] : [stay.start, stay.end];
  const taken = bookedIn(slots.machines[machine]!, from, to);
  if (taken !== null) {
    const what = careOfBooking(taken.run) === NONE ? problem.runIds[taken.run] : 'somebody at its tools';
    return `${name} is not free then, ${what} has it until ${at(problem, taken.end)}`;
  }
  return slots.isOpen(machine, from, stay.end) ? null : `${name} is planned off then`;
}

function palletTaken(problem: Problem, slots: Slots, stay: Stay, run: number): string | null {
  const set = problem.optionPallets[stay.option]!;
  if (set === NONE) return null;
  if (stay.pallet === NONE) return 'no pallet fits';
  const taken = bookedIn(slots.pallets[stay.pallet]!, stay.on, stay.off);
  if (taken === null) return null;
  const until = `${problem.runIds[taken.run]} has ${problem.palletIds[stay.pallet]} until ${at(problem, taken.end)}`;
  return problem.heldPallet[run] === NONE ? `every pallet that fits is taken, ${until}` : until;
}

function partsMissing(problem: Problem, schedule: Schedule, stay: Stay, run: number): string | null {
  const on = earliestOn(problem, schedule, run);
  return stay.on >= on ? null : `its parts are not ready before ${at(problem, on)}`;
}

function placesTaken(problem: Problem, slots: Slots, stay: Stay): string | null {
  const machine = problem.optionMachine[stay.option]!;
  const places = problem.machinePlaces[machine]!;
  if (places === NONE) return null;
  const until = slots.places[places]!.lastFull(stay.on, stay.off);
  if (until < 0) return null;
  return `all ${problem.placeLimit[places]} places it could wait in are taken until ${at(problem, until)}`;
}

function bookedIn(bookings: Bookings, from: number, to: number): { run: number; end: number } | null {
  const i = bookings.firstEndingAfter(from);
  return i < bookings.count && bookings.start[i]! < to ? { run: bookings.run[i]!, end: bookings.end[i]! } : null;
}

/** `Tue 1 Dec 09:30`. */
function at({ clock }: Problem, minute: number): string {
  return `${dayText(clock, minute)} ${clockText(clock, minute)}`;
}
