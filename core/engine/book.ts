import { NONE, type Problem } from '../problem';
import type { Schedule } from './schedule';
import type { Slots } from './slots';

/** Takes from the slots what the run needs where the schedule has it. */
export function take(problem: Problem, slots: Slots, schedule: Schedule, run: number): void {
  const machine = problem.optionMachine[schedule.option[run]!]!;
  const workSpot = problem.workSpot[machine]!;
  const loadSpot = problem.loadSpot[machine]!;
  const places = problem.machinePlaces[machine]!;
  const station = problem.machineStations[machine]!;
  const { people, pallets, machines, stations } = slots;
  const [on, off, start, end] = [schedule.on[run]!, schedule.off[run]!, schedule.start[run]!, schedule.end[run]!];
  if (problem.isTable[machine] === 1) machines[machine]!.add(on, off, 0, run);
  else machines[machine]!.add(start, end, 0, run);
  const worker = schedule.workPerson[run]!;
  if (worker !== NONE) people[worker]!.add(start, end, workSpot, run);
  const loader = schedule.loadPerson[run]!;
  if (loader !== NONE) {
    const from = schedule.loadStart[run]!;
    people[loader]!.add(from, from + problem.load[run]!, loadSpot, run);
    if (station !== NONE) stations[station]!.add(from, from + problem.load[run]!);
  }
  const checker = schedule.checkPerson[run]!;
  if (checker !== NONE) {
    const from = schedule.checkStart[run]!;
    people[checker]!.add(from, from + problem.checkMinutes[run]!, workSpot, run);
  }
  const unloader = schedule.unloadPerson[run]!;
  if (unloader !== NONE) {
    const from = schedule.unloadStart[run]!;
    people[unloader]!.add(from, off, loadSpot, run);
    if (station !== NONE) stations[station]!.add(from, from + problem.unload[run]!);
  }
  if (off <= on) return;
  const pallet = schedule.pallet[run]!;
  if (pallet !== NONE) pallets[pallet]!.add(on, off, 0, run);
  if (places !== NONE) slots.places[places]!.add(on, off);
}

/** Gives back what {@link take} took. */
export function giveBack(problem: Problem, slots: Slots, schedule: Schedule, run: number): void {
  const machine = problem.optionMachine[schedule.option[run]!]!;
  const places = problem.machinePlaces[machine]!;
  const station = problem.machineStations[machine]!;
  const { people, pallets, machines, stations } = slots;
  const [on, off, start] = [schedule.on[run]!, schedule.off[run]!, schedule.start[run]!];
  machines[machine]!.remove(problem.isTable[machine] === 1 ? on : start);
  const worker = schedule.workPerson[run]!;
  if (worker !== NONE) people[worker]!.remove(start);
  const loader = schedule.loadPerson[run]!;
  if (loader !== NONE) {
    const from = schedule.loadStart[run]!;
    people[loader]!.remove(from);
    if (station !== NONE) stations[station]!.remove(from, from + problem.load[run]!);
  }
  const checker = schedule.checkPerson[run]!;
  if (checker !== NONE) people[checker]!.remove(schedule.checkStart[run]!);
  const unloader = schedule.unloadPerson[run]!;
  if (unloader !== NONE) {
    const from = schedule.unloadStart[run]!;
    people[unloader]!.remove(from);
    if (station !== NONE) stations[station]!.remove(from, from + problem.unload[run]!);
  }
  if (off <= on) return;
  const pallet = schedule.pallet[run]!;
  if (pallet !== NONE) pallets[pallet]!.remove(on);
  if (places !== NONE) slots.places[places]!.remove(on, off);
}

/** What stands in the bookings of an attendance to tools in place of a run: below {@link NONE}, so no run's number. */
export function bookedCare(care: number): number {
  return -2 - care;
}

/** The attendance to tools that stands in the bookings in place of a run, or NONE where it is a run. */
export function careOfBooking(booked: number): number {
  return booked < NONE ? -2 - booked : NONE;
}

/** Takes machine and person for an attendance to tools. */
export function takeCare(problem: Problem, slots: Slots, schedule: Schedule, care: number): void {
  const machine = schedule.careMachine[care]!;
  const [start, end] = [schedule.careStart[care]!, schedule.careEnd[care]!];
  slots.machines[machine]!.add(start, end, 0, bookedCare(care));
  slots.people[schedule.carePerson[care]!]!.add(start, end, problem.workSpot[machine]!, bookedCare(care));
}

/** Gives back what {@link takeCare} took. */
export function giveBackCare(slots: Slots, schedule: Schedule, care: number): void {
  const start = schedule.careStart[care]!;
  slots.machines[schedule.careMachine[care]!]!.remove(start);
  slots.people[schedule.carePerson[care]!]!.remove(start);
}
