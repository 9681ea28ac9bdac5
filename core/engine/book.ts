import { NONE, type Problem } from '../problem';
import type { Schedule } from './schedule';
import type { Slots } from './slots';
import type { Stay } from './stay';

/** Writes a placement into the schedule and takes what it needs from the slots. */
export function book(problem: Problem, slots: Slots, schedule: Schedule, run: number, at: Stay): void {
  schedule.placed[run] = 1;
  schedule.option[run] = at.option;
  schedule.pallet[run] = at.pallet;
  schedule.loadPerson[run] = at.loadPerson;
  schedule.loadStart[run] = at.loadStart;
  schedule.start[run] = at.start;
  schedule.checkPerson[run] = at.checkPerson;
  schedule.checkStart[run] = at.checkStart;
  schedule.end[run] = at.end;
  schedule.workPerson[run] = at.workPerson;
  schedule.unloadPerson[run] = at.unloadPerson;
  schedule.unloadStart[run] = at.unloadStart;
  schedule.on[run] = at.on;
  schedule.off[run] = at.off;

  const machine = problem.optionMachine[at.option]!;
  const workSpot = problem.workSpot[machine]!;
  const loadSpot = problem.loadSpot[machine]!;
  const places = problem.machinePlaces[machine]!;
  const station = problem.machineStations[machine]!;
  const load = problem.load[run]!;
  const unload = problem.unload[run]!;
  if (problem.isTable[machine] === 1) slots.machines[machine]!.add(at.on, at.off, 0);
  else slots.machines[machine]!.add(at.start, at.end, 0);
  if (at.workPerson !== NONE) slots.people[at.workPerson]!.add(at.start, at.end, workSpot);
  if (at.loadPerson !== NONE) {
    slots.people[at.loadPerson]!.add(at.loadStart, at.loadStart + load, loadSpot);
    if (station !== NONE) slots.stations[station]!.add(at.loadStart, at.loadStart + load);
  }
  if (at.checkPerson !== NONE) {
    slots.people[at.checkPerson]!.add(at.checkStart, at.checkStart + problem.checkMinutes[run]!, workSpot);
  }
  if (at.unloadPerson !== NONE) {
    slots.people[at.unloadPerson]!.add(at.unloadStart, at.off, loadSpot);
    if (station !== NONE) slots.stations[station]!.add(at.unloadStart, at.unloadStart + unload);
  }
  if (at.pallet !== NONE && at.off > at.on) slots.pallets[at.pallet]!.add(at.on, at.off, 0);
  if (places !== NONE && at.off > at.on) slots.places[places]!.add(at.on, at.off);
}
