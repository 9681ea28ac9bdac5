import { NONE } from '../problem';
import type { Schedule } from './schedule';
import { NEVER } from './slots';

/** Where and when one run is, from on to off; NONE where it has no such attendance or pallet. */
export class Stay {
  option = NONE;
  pallet = NONE;
  loadPerson = NONE;
  loadStart = NONE;
  start = 0;
  checkPerson = NONE;
  checkStart = NONE;
  end = NEVER;
  workPerson = NONE;
  unloadPerson = NONE;
  unloadStart = NONE;
  on = 0;
  off = NEVER;

  copyTo(other: Stay): void {
    other.option = this.option;
    other.pallet = this.pallet;
    other.loadPerson = this.loadPerson;
    other.loadStart = this.loadStart;
    other.start = this.start;
    other.checkPerson = this.checkPerson;
    other.checkStart = this.checkStart;
    other.end = this.end;
    other.workPerson = this.workPerson;
    other.unloadPerson = this.unloadPerson;
    other.unloadStart = this.unloadStart;
    other.on = this.on;
    other.off = this.off;
  }

  /** As a schedule has it. */
  readFrom(schedule: Schedule, run: number): void {
    this.option = schedule.option[run]!;
    this.pallet = schedule.pallet[run]!;
    this.loadPerson = schedule.loadPerson[run]!;
    this.loadStart = schedule.loadStart[run]!;
    this.start = schedule.start[run]!;
    this.checkPerson = schedule.checkPerson[run]!;
    this.checkStart = schedule.checkStart[run]!;
    this.end = schedule.end[run]!;
    this.workPerson = schedule.workPerson[run]!;
    this.unloadPerson = schedule.unloadPerson[run]!;
    this.unloadStart = schedule.unloadStart[run]!;
    this.on = schedule.on[run]!;
    this.off = schedule.off[run]!;
  }

  /** Puts the run down in a schedule. */
  writeTo(schedule: Schedule, run: number): void {
    schedule.placed[run] = 1;
    schedule.option[run] = this.option;
    schedule.pallet[run] = this.pallet;
    schedule.loadPerson[run] = this.loadPerson;
    schedule.loadStart[run] = this.loadStart;
    schedule.start[run] = this.start;
    schedule.checkPerson[run] = this.checkPerson;
    schedule.checkStart[run] = this.checkStart;
    schedule.end[run] = this.end;
    schedule.workPerson[run] = this.workPerson;
    schedule.unloadPerson[run] = this.unloadPerson;
    schedule.unloadStart[run] = this.unloadStart;
    schedule.on[run] = this.on;
    schedule.off[run] = this.off;
  }
}
