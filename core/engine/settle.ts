import { NONE, type Problem } from '../problem';
import type { Pricer } from './cost';
import type { Schedule } from './schedule';
import type { Slots } from './slots';

/** Minutes between a load and its start that make a plan comfortable to work by; more is no better. */
const COMFORT = 30;

/** Loads and unloads go over the plan so often: one that moves may make room for another. */
const PASSES = 2;

const NOBODY = { person: NONE, end: 0, spot: 0 };

/**
 * Settles the hands of a finished schedule: no machine's time changes, but loads move earlier and unloads later where
 * that makes fewer rounds, and loads get slack before their start where it costs nothing. The search itself loads at
 * the last moment, which keeps places and pallets free for it but would leave the people none to spare.
 *
 * The slots must be those of the schedule, without conflicts.
 */
export class Settler {
  constructor(
    private readonly problem: Problem,
    private readonly slots: Slots,
    private readonly schedule: Schedule,
    private readonly pricer: Pricer,
  ) {}

  /** Settles all runs, the earliest first, until `isOver` says that there is no more time. */
  run(isOver: () => boolean): void {
    this.pricer.price(this.schedule, this.slots.people);
    const runs = Array.from(this.schedule.placed.keys()).filter((run) => this.schedule.placed[run] === 1);
    runs.sort((a, b) => this.schedule.start[a]! - this.schedule.start[b]!);
    for (let pass = 0; pass < PASSES; pass++) {
      for (const run of runs) {
        if (isOver()) return;
        this.settleLoad(run);
      }
      for (const run of runs) {
        if (isOver()) return;
        this.settleUnload(run);
      }
    }
  }

  /** Settles one run's load and unload in a schedule whose price stands. */
  settle(run: number): void {
    this.settleLoad(run);
    this.settleUnload(run);
  }

  private price(): number {
    return this.pricer.priceMarked(this.schedule, this.slots.people);
  }

  private settleLoad(run: number): void {
    const { problem, schedule } = this;
    if (schedule.loadPerson[run] === NONE) return;
    const machine = problem.optionMachine[schedule.option[run]!]!;
    // The table is cutting as soon as it is loaded.
    if (problem.isTable[machine] === 1) return;
    const length = problem.load[run]!;
    const [person, start] = [schedule.loadPerson[run]!, schedule.loadStart[run]!];
    if (!this.canGo(person, start)) return;
    let best = { person, start, cost: this.price() };
    const slack = (at: number) => Math.min(COMFORT, schedule.start[run]! - at - length);
    const lower = Math.max(this.earliestOn(run), this.freeSince(run, machine));
    this.liftLoad(run, machine);
    for (const [who, at] of this.candidates(run, machine, length, lower, schedule.start[run]! - length)) {
      this.putLoad(run, machine, who, at);
      const cost = this.price();
      const isBetter = cost < best.cost - 1e-9 || (cost < best.cost + 1e-9 && slack(at) > slack(best.start));
      if (isBetter) best = { person: who, start: at, cost };
      this.liftLoad(run, machine);
    }
    this.putLoad(run, machine, best.person, best.start);
  }

  private settleUnload(run: number): void {
    const { problem, schedule } = this;
    if (schedule.unloadPerson[run] === NONE) return;
    const machine = problem.optionMachine[schedule.option[run]!]!;
    const length = problem.unload[run]!;
    const [person, start] = [schedule.unloadPerson[run]!, schedule.unloadStart[run]!];
    if (!this.canGo(person, start)) return;
    let best = { person, start, cost: this.price() };
    const upper = this.latestOff(run, machine);
    this.liftUnload(run, machine);
    for (const [who, at] of this.candidates(run, machine, length, start + 1, upper - length)) {
      if (problem.isTable[machine] === 1 && !this.slots.isOpen(machine, at, at + length)) continue;
      this.putUnload(run, machine, who, at);
      const cost = this.price();
      if (cost < best.cost - 1e-9) best = { person: who, start: at, cost };
      this.liftUnload(run, machine);
    }
    this.putUnload(run, machine, best.person, best.start);
  }

  /** True if the person can walk from the attendance before this one straight to the one after it. */
  private canGo(person: number, start: number): boolean {
    const { walk, spotCount } = this.problem;
    const bookings = this.slots.people[person]!;
    const here = bookings.firstEndingAfter(start);
    if (here === 0 || here + 1 >= bookings.count) return true;
    const way = walk[bookings.spot[here - 1]! * spotCount + bookings.spot[here + 1]!]!;
    return bookings.end[here - 1]! + way <= bookings.start[here + 1]!;
  }

  /** Beginnings between the limits at which somebody is free, just before or after another attendance or comfortably early. */
  private candidates(run: number, machine: number, length: number, from: number, to: number): [number, number][] {
    const { problem, slots, schedule } = this;
    const { crews, walk, spotCount } = problem;
    const crew = problem.optionCrew[schedule.option[run]!]!;
    const spot = problem.loadSpot[machine]!;
    const station = problem.machineStations[machine]!;
    const found: [number, number][] = [];
    for (let i = crews.start[crew]!; i < crews.start[crew + 1]!; i++) {
      const person = crews.items[i]!;
      const bookings = slots.people[person]!;
      const last = to + 2 * length;
      for (let k = bookings.firstEndingAfter(from - 1); k < bookings.count && bookings.start[k]! <= last; k++) {
        const there = walk[bookings.spot[k]! * spotCount + spot]!;
        found.push([person, bookings.end[k]! + there]);
        found.push([person, bookings.start[k]! - walk[spot * spotCount + bookings.spot[k]!]! - length]);
      }
      found.push([person, to - COMFORT]);
    }
    return found.filter(
      ([person, at]) => at >= from && at <= to && slots.isPersonFree(person, at, length, spot, station, NOBODY),
    );
  }

  /** The run may be on from here: its predecessors are off and it is released. */
  private earliestOn(run: number): number {
    const { problem, schedule } = this;
    let on = problem.earliest[run]!;
    for (let i = problem.before.start[run]!; i < problem.before.start[run + 1]!; i++) {
      on = Math.max(on, schedule.off[problem.before.items[i]!]! + problem.lag[run]!);
    }
    return on;
  }

  /** Its pallet and a place are free from here until it is on now. */
  private freeSince(run: number, machine: number): number {
    const { problem, slots, schedule } = this;
    const on = schedule.on[run]!;
    let since = problem.now;
    const pallet = schedule.pallet[run]!;
    if (pallet !== NONE) {
      const bookings = slots.pallets[pallet]!;
      const own = bookings.firstEndingAfter(on);
      if (own > 0) since = Math.max(since, bookings.end[own - 1]!);
    }
    const places = problem.machinePlaces[machine]!;
    if (places !== NONE && on > since) since = Math.max(since, slots.places[places]!.lastFull(since, on));
    return since;
  }

  /** The run may stay on until here: nothing waits for its parts, pallet, place or table. */
  private latestOff(run: number, machine: number): number {
    const { problem, slots, schedule } = this;
    const off = schedule.off[run]!;
    let until = problem.horizon;
    for (let i = problem.after.start[run]!; i < problem.after.start[run + 1]!; i++) {
      const next = problem.after.items[i]!;
      if (schedule.placed[next] === 1) until = Math.min(until, schedule.on[next]! - problem.lag[next]!);
    }
    const pallet = schedule.pallet[run]!;
    if (pallet !== NONE) until = Math.min(until, nextStart(slots.pallets[pallet]!, off));
    if (problem.isTable[machine] === 1) until = Math.min(until, nextStart(slots.machines[machine]!, off));
    const places = problem.machinePlaces[machine]!;
    const full = places === NONE ? -1 : slots.places[places]!.firstFull(off, until);
    return full < 0 ? until : Math.max(off, full);
  }

  private liftLoad(run: number, machine: number): void {
    const { problem, slots, schedule, pricer } = this;
    pricer.mark(schedule, run);
    const start = schedule.loadStart[run]!;
    slots.people[schedule.loadPerson[run]!]!.remove(start);
    const station = problem.machineStations[machine]!;
    if (station !== NONE) slots.stations[station]!.remove(start, start + problem.load[run]!);
    this.hold(run, machine, false);
  }

  private putLoad(run: number, machine: number, person: number, start: number): void {
    const { problem, slots, schedule } = this;
    schedule.loadPerson[run] = person;
    schedule.loadStart[run] = start;
    schedule.on[run] = start;
    this.pricer.mark(schedule, run);
    slots.people[person]!.add(start, start + problem.load[run]!, problem.loadSpot[machine]!, run);
    const station = problem.machineStations[machine]!;
    if (station !== NONE) slots.stations[station]!.add(start, start + problem.load[run]!);
    this.hold(run, machine, true);
  }

  private liftUnload(run: number, machine: number): void {
    const { problem, slots, schedule, pricer } = this;
    pricer.mark(schedule, run);
    const start = schedule.unloadStart[run]!;
    slots.people[schedule.unloadPerson[run]!]!.remove(start);
    const station = problem.machineStations[machine]!;
    if (station !== NONE) slots.stations[station]!.remove(start, start + problem.unload[run]!);
    this.hold(run, machine, false);
  }

  private putUnload(run: number, machine: number, person: number, start: number): void {
    const { problem, slots, schedule } = this;
    schedule.unloadPerson[run] = person;
    schedule.unloadStart[run] = start;
    schedule.off[run] = start + problem.unload[run]!;
    this.pricer.mark(schedule, run);
    slots.people[person]!.add(start, schedule.off[run]!, problem.loadSpot[machine]!, run);
    const station = problem.machineStations[machine]!;
    if (station !== NONE) slots.stations[station]!.add(start, schedule.off[run]!);
    this.hold(run, machine, true);
  }

  /** Takes or gives back what the run holds from on to off. */
  private hold(run: number, machine: number, take: boolean): void {
    const { problem, slots, schedule } = this;
    const [on, off] = [schedule.on[run]!, schedule.off[run]!];
    const pallet = schedule.pallet[run]!;
    const places = problem.machinePlaces[machine]!;
    const isTable = problem.isTable[machine] === 1;
    if (take) {
      if (pallet !== NONE) slots.pallets[pallet]!.add(on, off, 0, run);
      if (places !== NONE) slots.places[places]!.add(on, off);
      if (isTable) slots.machines[machine]!.add(on, off, 0, run);
    } else {
      if (pallet !== NONE) slots.pallets[pallet]!.remove(on);
      if (places !== NONE) slots.places[places]!.remove(on, off);
      if (isTable) slots.machines[machine]!.remove(on);
    }
  }
}

/** Start of the first booking at or after `time`, or far away. */
function nextStart(
  bookings: { firstEndingAfter(time: number): number; count: number; start: Int32Array },
  time: number,
) {
  const next = bookings.firstEndingAfter(time);
  return next < bookings.count ? bookings.start[next]! : 0x3fffffff;
}
