import { NONE, type Problem } from '../problem';
import { AloneRule } from './alone';
import type { Schedule } from './schedule';
import { NEVER, type OwnAttendance, type Slots } from './slots';
import { Stay } from './stay';

/** How often one search may be pushed on before it is given up; far above what a real shop needs. */
const PUSHES = 10_000;

/**
 * Finds the earliest room for one run on one machine: machine, people, pallet, place and station free together. The
 * result is left in the fields, so that trying ten options allocates nothing.
 */
export class Placement extends Stay {
  /** Minutes the run stays on after its cut at least. */
  linger = 0;
  /** Who must load, check and take off if the skill is there; NONE for whoever can first. */
  loader = NONE;
  checker = NONE;
  unloader = NONE;
  /** A cut that ends later is of no use: the search ends as soon as that is certain. */
  latestEnd = NEVER;

  private readonly alone: AloneRule;
  private readonly own: OwnAttendance & { start: number } = { person: NONE, start: 0, end: 0, spot: 0 };

  constructor(
    private readonly problem: Problem,
    private readonly slots: Slots,
    schedule: Schedule,
  ) {
    super();
    this.alone = new AloneRule(problem, slots, schedule);
  }

  /**
   * Earliest room for `run` on `option`, on at or after `notBefore` and cutting at or after `startAfter`; `pallet` is
   * the only one allowed, or NONE for any. `isLoaded`: it stands on its machine already. False if there is none before
   * the horizon.
   */
  find(run: number, option: number, notBefore: number, startAfter: number, pallet: number, isLoaded: boolean): boolean {
    const { isBench, isTable, optionMachine } = this.problem;
    const machine = optionMachine[option]!;
    this.option = option;
    this.pallet = NONE;
    this.loadPerson = NONE;
    this.loadStart = NONE;
    this.checkPerson = NONE;
    this.checkStart = NONE;
    this.workPerson = NONE;
    this.unloadPerson = NONE;
    this.unloadStart = NONE;
    this.own.person = NONE;
    const from = Math.max(notBefore, isBench[machine] === 1 || this.problem.load[run] === 0 ? startAfter : notBefore);
    let lower = from;
    for (let push = 0; push < PUSHES; push++) {
      let next: number;
      if (isBench[machine] === 1) next = this.tryBench(option, machine, lower);
      else if (isTable[machine] === 1) next = this.tryTable(run, option, machine, lower, startAfter, isLoaded);
      else next = this.tryChanger(run, option, machine, lower, startAfter, isLoaded);
      if (next >= NEVER) return false;
      if (next < 0) next = this.choosePallet(option, pallet, isLoaded);
      if (next >= NEVER) return false;
      if (next < 0) return this.off <= this.problem.horizon && this.end <= this.latestEnd;
      if (next > this.latestEnd) return false;
      if (isLoaded) {
        // It holds its pallet and place already; only the machine and the hands can be waited for.
        startAfter = Math.max(startAfter, next);
      }
      lower = next;
    }
    return false;
  }

  /** Each `try…` leaves a placement and returns -1, or returns the moment before which nothing can come of it. */
  private tryBench(option: number, machine: number, lower: number): number {
    const { slots, problem } = this;
    const length = problem.optionCut[option]!;
    const spot = problem.workSpot[machine]!;
    const start = slots.crewFrom(problem.optionCrew[option]!, lower, length, spot, NONE, this.own, this.loader);
    if (start >= NEVER) return NEVER;
    const room = slots.machineFrom(machine, start, length);
    if (room > start) return room;
    this.workPerson = slots.person;
    this.start = start;
    this.end = start + length;
    this.on = start;
    this.off = this.end;
    return -1;
  }

  private tryChanger(
    run: number,
    option: number,
    machine: number,
    lower: number,
    startAfter: number,
    isLoaded: boolean,
  ): number {
    const { slots, problem } = this;
    const crew = problem.optionCrew[option]!;
    const station = problem.machineStations[machine]!;
    const spot = problem.loadSpot[machine]!;
    const load = isLoaded ? 0 : problem.load[run]!;
    this.own.person = NONE;
    let ready = lower;
    if (load > 0) {
      // Where the machine is taken for long, nobody has to be found for a load early in that time.
      const cut = problem.optionCut[option]!;
      const start = slots.machineFrom(machine, Math.max(lower + load, startAfter), cut);
      if (start + cut > this.latestEnd) return NEVER;
      const last = slots.crewUntil(crew, lower, start, load, spot, station, this.own, this.loader);
      ready =
        last >= 0
          ? last
          : slots.crewFrom(crew, Math.max(lower, start - load), load, spot, station, this.own, this.loader);
      if (ready >= NEVER) return NEVER;
      this.loadStart = ready;
      this.loadPerson = slots.person;
      ready += load;
    }
    if (!this.cut(run, option, machine, Math.max(ready, startAfter))) return NEVER;
    if (!this.takeOff(run, this.end + this.linger)) return NEVER;
    if (load > 0) this.delayLoad(crew, ready - load, load, spot, station);
    this.on = load > 0 ? this.loadStart : isLoaded ? problem.now : this.start;
    const places = problem.machinePlaces[machine]!;
    if (places === NONE || isLoaded) return -1;
    return slots.places[places]!.lastFull(this.on, this.off);
  }

  /** The later it is loaded, the shorter it keeps its place and its pallet. */
  private delayLoad(crew: number, earliest: number, load: number, spot: number, station: number): void {
    const { slots, own } = this;
    if (this.loadStart + load === this.start) return;
    own.person = NONE;
    if (this.checkStart !== NONE) {
      own.person = this.checkPerson;
      own.start = this.checkStart;
      own.spot = this.problem.workSpot[this.problem.optionMachine[this.option]!]!;
    }
    const later = slots.crewUntil(crew, earliest, this.start, load, spot, station, own, this.loader);
    if (later < 0) return;
    this.loadStart = later;
    this.loadPerson = slots.person;
  }

  /** Start, first-piece check and end on a machine that is free at or after `ready`. */
  private cut(run: number, option: number, machine: number, ready: number): boolean {
    const { slots, problem, own } = this;
    const cut = problem.optionCut[option]!;
    const check = problem.checkMinutes[run]!;
    if (check === 0) {
      let from = ready;
      for (let push = 0; push < PUSHES; push++) {
        this.start = slots.machineFrom(machine, from, cut);
        if (this.start >= NEVER) return false;
        this.end = this.start + cut;
        from = this.alone.soonest(run, option, this.start, this.end);
        if (from === this.start) return true;
      }
      return false;
    }
    const before = Math.min(problem.holdAfter[run]!, cut);
    if (this.loadPerson !== NONE) {
      own.person = this.loadPerson;
      own.end = this.loadStart + problem.load[run]!;
      own.spot = problem.loadSpot[machine]!;
    }
    let from = ready;
    for (let push = 0; push < PUSHES; push++) {
      const start = slots.machineFrom(machine, from, cut + check);
      if (start >= NEVER) return false;
      const spot = problem.workSpot[machine]!;
      const checkStart = slots.crewFrom(
        problem.optionCrew[option]!,
        start + before,
        check,
        spot,
        NONE,
        own,
        this.checker,
      );
      if (checkStart >= NEVER) return false;
      this.checkPerson = slots.person;
      this.checkStart = checkStart;
      // Begin so that the person is there when the machine holds: a held machine cuts nothing.
      this.start = checkStart - before;
      this.end = checkStart + check + cut - before;
      const room = slots.machineFrom(machine, this.start, this.end - this.start);
      from = Math.max(room, this.alone.soonest(run, option, this.start, this.end));
      if (from === this.start) return true;
    }
    return false;
  }

  /** Takes the run off as soon as it can be after `from`; false if that is never. At a bench there is nothing to do. */
  takeOff(run: number, from: number): boolean {
    const { problem } = this;
    const machine = problem.optionMachine[this.option]!;
    this.off = this.end;
    if (problem.unload[run] === 0 || problem.isBench[machine] === 1) return true;
    if (problem.isTable[machine] === 0) return this.takeOffWithin(run, from, NEVER);
    // A table is unloaded in the machine's hours only; a finished part waits while it is planned off.
    const { first, start, end } = problem.open;
    for (let k = first[machine]!; k < first[machine + 1]!; k++) {
      if (end[k]! > from && this.takeOffWithin(run, Math.max(from, start[k]!), end[k]!)) return true;
    }
    return false;
  }

  private takeOffWithin(run: number, from: number, until: number): boolean {
    const { slots, problem, own } = this;
    const machine = problem.optionMachine[this.option]!;
    const length = problem.unload[run]!;
    const spot = problem.loadSpot[machine]!;
    own.person = NONE;
    if (this.checkStart !== NONE) {
      own.person = this.checkPerson;
      own.end = this.checkStart + problem.checkMinutes[run]!;
      own.spot = problem.workSpot[machine]!;
    }
    const crew = problem.optionCrew[this.option]!;
    const start = slots.crewFrom(crew, from, length, spot, problem.machineStations[machine]!, own, this.unloader);
    if (start >= NEVER || start + length > until) return false;
    this.unloadPerson = slots.person;
    this.unloadStart = start;
    this.off = start + length;
    return true;
  }

  private tryTable(
    run: number,
    option: number,
    machine: number,
    lower: number,
    startAfter: number,
    isLoaded: boolean,
  ): number {
    const { slots, problem, own } = this;
    const load = isLoaded ? 0 : problem.load[run]!;
    const cut = problem.optionCut[option]!;
    const crew = problem.optionCrew[option]!;
    const spot = problem.loadSpot[machine]!;
    own.person = NONE;
    let on = Math.max(lower, startAfter - load);
    if (load > 0) {
      on = slots.crewFrom(crew, on, load, spot, NONE, own, this.loader);
      if (on >= NEVER) return NEVER;
      this.loadPerson = slots.person;
    }
    const check = problem.checkMinutes[run]!;
    const room = slots.machineFrom(machine, on, load + cut + check);
    if (room > on) return room;
    const before = Math.min(problem.holdAfter[run]!, cut);
    if (check > 0) {
      own.person = this.loadPerson;
      own.end = on + load;
      own.spot = spot;
      const checkStart = slots.crewFrom(
        crew,
        on + load + before,
        check,
        problem.workSpot[machine]!,
        NONE,
        own,
        this.checker,
      );
      if (checkStart >= NEVER) return NEVER;
      this.checkPerson = slots.person;
      this.checkStart = checkStart;
      if (checkStart > on + load + before) {
        const later = this.laterTableLoad(run, crew, machine, on, checkStart - before);
        if (later > on) return later;
      }
    }
    this.loadStart = load > 0 ? on : NONE;
    this.start = on + load;
    this.end = check > 0 ? this.checkStart + check + cut - before : this.start + cut;
    if (!slots.isOpen(machine, on, this.end)) return slots.machineFrom(machine, on + 1, load + cut + check);
    const alone = this.alone.soonest(run, option, this.start, this.end);
    if (alone > this.start) return Math.max(on + 1, alone - load);
    if (!this.takeOff(run, this.end + this.linger)) return NEVER;
    return this.tableRoom(machine, on, isLoaded);
  }

  private tableRoom(machine: number, on: number, isLoaded: boolean): number {
    this.on = isLoaded ? this.problem.now : on;
    const bookings = this.slots.machines[machine]!;
    if (bookings.isFree(on, this.off)) return -1;
    return bookings.end[bookings.firstEndingAfter(on)]!;
  }

  /** The last moment to load the table so that the check comes as soon as the machine holds. */
  private laterTableLoad(run: number, crew: number, machine: number, on: number, start: number): number {
    const { slots, problem, own } = this;
    const load = problem.load[run]!;
    if (load === 0) return start;
    own.person = this.checkPerson;
    own.start = this.checkStart;
    own.spot = problem.workSpot[machine]!;
    return slots.crewUntil(crew, on, start, load, problem.loadSpot[machine]!, NONE, own, this.loader);
  }

  /** Takes the pallet that fits fewest machines, then the one idle for the shortest time: others stay free for others. */
  private choosePallet(option: number, only: number, isLoaded: boolean): number {
    const { problem, slots } = this;
    const set = problem.optionPallets[option]!;
    if (set === NONE) return -1;
    if (isLoaded) {
      this.pallet = only;
      return -1;
    }
    if (only !== NONE) {
      const busyUntil = slots.pallets[only]!.firstGap(this.on, this.off - this.on);
      this.pallet = only;
      return busyUntil === this.on ? -1 : busyUntil;
    }
    const { start, items } = problem.palletSets;
    let soonest = NEVER;
    let best = NONE;
    let bestReach = NEVER;
    let bestIdle = NEVER;
    for (let i = start[set]!; i < start[set + 1]!; i++) {
      const pallet = items[i]!;
      const bookings = slots.pallets[pallet]!;
      const next = bookings.firstEndingAfter(this.on);
      if (next < bookings.count && bookings.start[next]! < this.off) {
        let last = next;
        while (last + 1 < bookings.count && bookings.start[last + 1]! < this.off) last++;
        soonest = Math.min(soonest, bookings.end[last]!);
        continue;
      }
      const idle = this.on - (next > 0 ? bookings.end[next - 1]! : 0);
      const reach = problem.palletReach[pallet]!;
      if (reach < bestReach || (reach === bestReach && idle < bestIdle)) {
        best = pallet;
        bestReach = reach;
        bestIdle = idle;
      }
    }
    if (best === NONE) return soonest;
    this.pallet = best;
    return -1;
  }
}
