import { NONE, type Problem } from '../problem';
import { NEVER, type OwnAttendance, type Slots } from './slots';
import type { Stay } from './stay';

/**
 * True if the run can be just where `stay` has it (an earlier schedule's), on at or after `notBefore` and cutting at or
 * after `startAfter`: everything it takes there is free.
 */
export function canRepeat(
  problem: Problem,
  slots: Slots,
  stay: Stay,
  run: number,
  notBefore: number,
  startAfter: number,
): boolean {
  if (stay.on < notBefore || stay.start < startAfter || stay.off > problem.horizon) return false;
  const machine = problem.optionMachine[stay.option]!;
  const places = problem.machinePlaces[machine]!;
  return (
    isMachineFree(problem, slots, stay, run, machine) &&
    (places === NONE || slots.places[places]!.lastFull(stay.on, stay.off) < 0) &&
    (stay.pallet === NONE || slots.pallets[stay.pallet]!.isFree(stay.on, stay.off)) &&
    areHandsFree(problem, slots, stay, run, machine)
  );
}

function isMachineFree(problem: Problem, slots: Slots, stay: Stay, run: number, machine: number): boolean {
  const bookings = slots.machines[machine]!;
  if (problem.isTable[machine] === 0) {
    return bookings.isFree(stay.start, stay.end) && slots.isOpen(machine, stay.start, stay.end);
  }
  const startsWhenLoaded = stay.loadStart === NONE || stay.loadStart + problem.load[run]! === stay.start;
  return (
    startsWhenLoaded &&
    bookings.isFree(stay.on, stay.off) &&
    slots.isOpen(machine, stay.on, stay.end) &&
    (stay.unloadStart === NONE || slots.isOpen(machine, stay.unloadStart, stay.off))
  );
}

function areHandsFree(problem: Problem, slots: Slots, stay: Stay, run: number, machine: number): boolean {
  const [workSpot, loadSpot] = [problem.workSpot[machine]!, problem.loadSpot[machine]!];
  const station = problem.machineStations[machine]!;
  const own: OwnAttendance = { person: NONE, end: -NEVER, spot: 0 };
  const isFree = (person: number, start: number, length: number, spot: number, at: number): boolean => {
    if (person === NONE) return true;
    if (!slots.isPersonFree(person, start, length, spot, at, own)) return false;
    own.person = person;
    own.end = start + length;
    own.spot = spot;
    return true;
  };
  return (
    isFree(stay.workPerson, stay.start, stay.end - stay.start, workSpot, NONE) &&
    isFree(stay.loadPerson, stay.loadStart, problem.load[run]!, loadSpot, station) &&
    isFree(stay.checkPerson, stay.checkStart, problem.checkMinutes[run]!, workSpot, NONE) &&
    isFree(stay.unloadPerson, stay.unloadStart, problem.unload[run]!, loadSpot, station)
  );
}
