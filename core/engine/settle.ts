import { NONE, type Problem } from '../problem';
import type { Pricer } from './cost';
import { HandPrice } from './hand-price';
import { earliestOn, type Schedule } from './schedule';
import type { Slots } from './slots';

/** Minutes between a load and its start that make a plan comfortable to work by; more is no better. */
const COMFORT = 30;

/** Loads and unloads go over the plan so often: one that moves may make room for another. */
const PASSES = 2;

/** Better by less is no better: sums made in another order differ by as much. */
const LEAST_GAIN = 1e-9;

const NOBODY = { person: NONE, end: 0, spot: 0 };

/**
 * Settles the hands of a finished schedule: no machine's time changes, but loads move earlier and unloads later where
 * that makes fewer rounds, and loads get slack before their start where it costs nothing. The search itself loads at
 * the last moment, which keeps places and pallets free for it but would leave the people none to spare.
 *
 * The slots must be those of the schedule, without conflicts.
 */
export class Settler {
  private readonly handPrice: HandPrice;
  // The best found for the hand that is being settled.
  private person = NONE;
  private start = NONE;
  private cost = 0;

  constructor(
    private readonly problem: Problem,
    private readonly slots: Slots,
    private readonly schedule: Schedule,
    private readonly pricer: Pricer,
  ) {
    this.handPrice = new HandPrice(problem, schedule, pricer, slots.people);
  }

  /** Settles all runs asked for, the earliest first, until `isOver` says that there is no more time. */
  run(isOver: () => boolean, isAskedFor: (run: number) => boolean = () => true): void {
    this.pricer.price(this.schedule, this.slots.people);
    const { placed } = this.schedule;
    const runs = Array.from(placed.keys()).filter((run) => placed[run] === 1 && isAskedFor(run));
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

  /** Settles one run's load and unload. */
  settle(run: number): void {
    this.price();
    this.settleLoad(run);
    this.settleUnload(run);
  }

  private price(): void {
    this.pricer.priceMarked(this.schedule, this.slots.people);
  }

  private settleLoad(run: number): void {
    const { problem, schedule } = this;
    const person = schedule.loadPerson[run]!;
    if (person === NONE) return;
    const machine = problem.optionMachine[schedule.option[run]!]!;
    // The table is cutting as soon as it is loaded.
    if (problem.isTable[machine] === 1) return;
    const [length, spot] = [problem.load[run]!, problem.loadSpot[machine]!];
    const start = schedule.loadStart[run]!;
    if (!this.canGo(person, start)) return;
    const latest = schedule.start[run]! - length;
    const slack = (at: number) => Math.min(COMFORT, latest - at);
    const own = this.freeHand(machine, person, start, length);
    this.begin(person, start, this.handPrice.ofHand(person, own, start, start + length, spot));
    const from = Math.max(earliestOn(problem, schedule, run), this.freeSince(run, machine));
    this.tryHands(run, machine, length, from, latest, (who, after, at) => {
      const cost = this.handPrice.ofHand(who, after, at, at + length, spot);
      const isBetter =
        cost < this.cost - LEAST_GAIN || (cost < this.cost + LEAST_GAIN && slack(at) > slack(this.start));
      if (isBetter && this.isFree(who, at, length, machine)) this.begin(who, at, cost);
    });
    this.bookHand(run, machine, this.person, this.start, length);
    if (this.person === person && this.start === start) return;
    this.move(run, machine, () => {
      schedule.loadPerson[run] = this.person;
      schedule.loadStart[run] = schedule.on[run] = this.start;
    });
  }

  private settleUnload(run: number): void {
    const { problem, schedule, handPrice } = this;
    const person = schedule.unloadPerson[run]!;
    if (person === NONE) return;
    const machine = problem.optionMachine[schedule.option[run]!]!;
    const [length, spot] = [problem.unload[run]!, problem.loadSpot[machine]!];
    const start = schedule.unloadStart[run]!;
    if (!this.canGo(person, start)) return;
    handPrice.lookAt(run);
    const costAt = (who: number, after: number, at: number) =>
      handPrice.ofHand(who, after, at, at + length, spot) + handPrice.ofOff(run, at + length);
    const own = this.freeHand(machine, person, start, length);
    this.begin(person, start, costAt(person, own, start));
    const latest = this.latestOff(run, machine) - length;
    const isTable = problem.isTable[machine] === 1;
    this.tryHands(run, machine, length, start + 1, latest, (who, after, at) => {
      const cost = costAt(who, after, at);
      if (cost >= this.cost - LEAST_GAIN || (isTable && !this.slots.isOpen(machine, at, at + length))) return;
      if (this.isFree(who, at, length, machine)) this.begin(who, at, cost);
    });
    this.bookHand(run, machine, this.person, this.start, length);
    if (this.person === person && this.start === start) return;
    this.move(run, machine, () => {
      schedule.unloadPerson[run] = this.person;
      schedule.unloadStart[run] = this.start;
      schedule.off[run] = this.start + length;
    });
  }

  private begin(person: number, start: number, cost: number): void {
    this.person = person;
    this.start = start;
    this.cost = cost;
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

  /**
   * Offers beginnings between the limits, each with the index of the person's next attendance: just before or after another
   * attendance where there is room, or comfortably early.
   */
  private tryHands(
    run: number,
    machine: number,
    length: number,
    from: number,
    to: number,
    offer: (person: number, after: number, at: number) => void,
  ): void {
    const { problem, slots, schedule } = this;
    const { crews, walk, spotCount } = problem;
    const crew = problem.optionCrew[schedule.option[run]!]!;
    const spot = problem.loadSpot[machine]!;
    const last = to + 2 * length;
    for (let i = crews.start[crew]!; i < crews.start[crew + 1]!; i++) {
      const person = crews.items[i]!;
      const attendances = slots.people[person]!;
      const { start, end, spot: spots, count } = attendances;
      for (let k = attendances.firstEndingAfter(from - 1); k < count && start[k]! <= last; k++) {
        const soonest = end[k]! + walk[spots[k]! * spotCount + spot]!;
        const isRoomAfter = k + 1 === count || start[k + 1]! - end[k]! >= length;
        if (isRoomAfter && soonest >= from && soonest <= to) offer(person, k + 1, soonest);
        const latest = start[k]! - walk[spot * spotCount + spots[k]!]! - length;
        const isRoomBefore = k === 0 || start[k]! - end[k - 1]! >= length;
        if (isRoomBefore && latest >= from && latest <= to) offer(person, k, latest);
      }
      const early = to - COMFORT;
      if (early >= from) offer(person, attendances.firstEndingAfter(early), early);
    }
  }

  private isFree(person: number, at: number, length: number, machine: number): boolean {
    const { loadSpot, machineStations } = this.problem;
    return this.slots.isPersonFree(person, at, length, loadSpot[machine]!, machineStations[machine]!, NOBODY);
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

  /** Returns the index of the person's attendance after it. */
  private freeHand(machine: number, person: number, start: number, length: number): number {
    const station = this.problem.machineStations[machine]!;
    if (station !== NONE) this.slots.stations[station]!.remove(start, start + length);
    return this.slots.people[person]!.remove(start);
  }

  private bookHand(run: number, machine: number, person: number, start: number, length: number): void {
    this.slots.people[person]!.add(start, start + length, this.problem.loadSpot[machine]!, run);
    const station = this.problem.machineStations[machine]!;
    if (station !== NONE) this.slots.stations[station]!.add(start, start + length);
  }

  /** Moves a run's load or unload to the hand found, which is booked already: `write` puts it into the schedule. */
  private move(run: number, machine: number, write: () => void): void {
    const { schedule, pricer } = this;
    pricer.mark(schedule, run);
    this.hold(run, machine, false);
    write();
    this.hold(run, machine, true);
    pricer.mark(schedule, run);
    this.price();
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
