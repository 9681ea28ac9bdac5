import { LOADED, NONE, type Problem, RUNNING, type ToolTable } from '../problem';
import type { Board } from './board';
import { careOfBooking, giveBack, take } from './book';
import type { Bookings } from './bookings';
import { Placement } from './placement';
import type { Repair } from './repair';
import type { Schedule } from './schedule';
import { NEVER, type OwnAttendance } from './slots';
import { ToolLedger } from './tool-ledger';

/** Shortages mended in one change before it is given up; a schedule built anew has as many as it needs. */
const MOST_TRIES = 8;

/** Runs before one that is short among which a place for an attendance is looked for. */
const REACH = 2;

/** Tools replaced for one run in one attendance. */
const MOST_ACTS = 3;

/** Times one run is helped: then it is put off, and then others make way, if it is held; and then it cannot be helped. */
const HELPED = 4;
const PUT_OFF = 8;
const GIVEN_UP = 40;
/** So much oftener in a schedule built anew, which is done seldom. */
const PATIENCE_ANEW = 6;

const nobody = (): OwnAttendance & { start: number } => ({ person: NONE, start: 0, end: 0, spot: 0 });

/**
 * Sees to it that every run of a schedule has the tools it needs: where one would run short it puts an attendance to
 * the machine's tools before it, in a gap or by lifting what stands there, or puts the run off until somebody can come.
 */
export class Equipper {
  private readonly ledger: ToolLedger;
  private readonly schedule: Schedule;
  /** Machines whose queue has changed. */
  private readonly isStale: Uint8Array;
  private readonly stale: number[] = [];
  private readonly own = nobody();
  private readonly chain: number[] = [];
  private patience = 1;
  /** How often each run has been helped in this change. */
  private readonly helped: Uint8Array;

  constructor(
    private readonly problem: Problem,
    private readonly tools: ToolTable,
    private readonly board: Board,
    private readonly repair: Repair,
  ) {
    this.schedule = board.schedule;
    this.ledger = new ToolLedger(problem, tools, board.slots, board.schedule);
    this.isStale = new Uint8Array(problem.machineCount);
    this.helped = new Uint8Array(problem.runCount);
  }

  /** The queue of a machine is read again at the next {@link mend}. */
  mark(machine: number): void {
    if (this.isStale[machine] === 1) return;
    this.isStale[machine] = 1;
    this.stale.push(machine);
  }

  forget(): void {
    for (const machine of this.stale) this.isStale[machine] = 0;
    this.stale.length = 0;
  }

  /** Mends the queues of the machines marked; false if one of them stays short of a tool. */
  mend(): boolean {
    return this.mendAll(MOST_TRIES, false);
  }

  /** Mends a schedule built anew: what cannot be helped is left out, or reported if it cannot move. */
  mendAnew(): void {
    for (let machine = 0; machine < this.problem.machineCount; machine++) this.mark(machine);
    this.patience = PATIENCE_ANEW;
    this.mendAll(Number.POSITIVE_INFINITY, true);
    this.patience = 1;
  }

  /**
   * Lets what is loaded already, and is short of a tool, begin after somebody has been at the tools. Nothing but what is
   * held is on the board yet.
   */
  equipLoaded(): void {
    const { problem, schedule, ledger, board } = this;
    for (let machine = 0; machine < problem.machineCount; machine++) {
      for (let tries = 0; tries < HELPED && !ledger.read(machine); tries++) {
        const { run, minutes } = ledger;
        if (problem.state[run] === RUNNING) {
          schedule.isShort[run] = 1;
          continue;
        }
        // A loaded table is taken from now on: nobody can get at the tools before it has been cut.
        if (problem.state[run] !== LOADED || minutes === 0 || problem.isTable[machine] === 1) break;
        // What a lock wants at the same time stands in one booking with it, and would be given back as well.
        if (this.isMerged(run, machine)) break;
        const option = schedule.option[run]!;
        giveBack(problem, board.slots, schedule, run);
        const whole = minutes + problem.optionCut[option]! + problem.checkMinutes[run]!;
        const from = this.roomFor(machine, schedule.start[run]!, minutes, whole);
        const person = board.slots.person;
        const at = new Placement(problem, board.slots, schedule);
        const begin = from + minutes;
        if (from < NEVER && at.find(run, option, problem.now, begin, problem.heldPallet[run]!, true)) {
          at.writeTo(schedule, run);
          take(problem, board.slots, schedule, run);
          this.repair.addCare(machine, person, from, begin);
          continue;
        }
        take(problem, board.slots, schedule, run);
        break;
      }
    }
  }

  private isMerged(run: number, machine: number): boolean {
    const { machines, pallets, people } = this.board.slots;
    const pallet = this.schedule.pallet[run]!;
    return (
      machines[machine]!.hasMerged ||
      (pallet !== NONE && pallets[pallet]!.hasMerged) ||
      people.some(({ hasMerged }) => hasMerged)
    );
  }

  private mendAll(tries: number, mayLeaveOut: boolean): boolean {
    this.helped.fill(0);
    for (let left = tries; this.stale.length > 0; ) {
      const machine = this.stale.at(-1)!;
      if (this.ledger.read(machine)) {
        this.trim(machine);
        this.isStale[machine] = 0;
        this.stale.pop();
        continue;
      }
      if (left-- > 0 && this.help(machine)) continue;
      if (!mayLeaveOut) return false;
      if (!this.stepAside(machine)) this.giveUp(this.ledger.run);
    }
    return true;
  }

  private help(machine: number): boolean {
    const { run, kind, minutes } = this.ledger;
    const times = ++this.helped[run]!;
    if (times > PUT_OFF * this.patience) return false;
    if (minutes > 0 && times <= HELPED * this.patience) {
      if (this.attendInGap(machine, run, minutes)) return true;
      if (this.shift(machine, run, minutes + (times - 1) * this.tools.replaceMinutes[kind]!)) return true;
    }
    return this.putOff(machine, run, minutes);
  }

  /** In the latest gap of the machine's queue before a run in which somebody has the time to do what it needs. */
  private attendInGap(machine: number, run: number, minutes: number): boolean {
    const { problem, schedule } = this;
    const bookings = this.board.slots.machines[machine]!;
    const before = schedule.start[run]!;
    let i = bookings.firstEndingAfter(before);
    // A table is taken from the load on.
    let until = i < bookings.count ? Math.min(before, bookings.start[i]!) : before;
    for (; i >= 0 && until > problem.now; i--) {
      const from = Math.max(problem.now, i > 0 ? bookings.end[i - 1]! : problem.now);
      if (until - from >= minutes && this.attendBetween(machine, from, until, minutes)) return true;
      if (i > 0) until = bookings.start[i - 1]!;
    }
    return false;
  }

  /** The further an attendance lies before the run, the more tools have to be replaced in it. */
  private attendBetween(machine: number, from: number, until: number, least: number): boolean {
    const { slots } = this.board;
    const { ledger, tools } = this;
    const { run, kind } = ledger;
    for (let acts = 1; acts <= MOST_ACTS; acts++) {
      const minutes = acts === 1 ? least : least + (acts - 1) * tools.replaceMinutes[kind]!;
      const start = this.latest(machine, from, until, minutes);
      if (start < 0 || !slots.isOpen(machine, start, start + minutes)) return false;
      const care = this.repair.addCare(machine, slots.person, start, start + minutes);
      if (care === NONE) return false;
      if (ledger.read(machine) || ledger.run !== run || ledger.kind !== kind) return true;
      this.repair.removeCare(care);
    }
    return false;
  }

  private latest(machine: number, from: number, until: number, minutes: number): number {
    const { problem, own } = this;
    own.person = NONE;
    const crew = this.tools.crew[machine]!;
    return this.board.slots.crewUntil(crew, from, until, minutes, problem.workSpot[machine]!, NONE, own, NONE);
  }

  /**
   * Before the run, or one of those before it on its machine, wherever what follows is put off least; all of that goes
   * back in its order.
   */
  private shift(machine: number, run: number, minutes: number): boolean {
    const { problem, repair } = this;
    const { slots } = this.board;
    const bookings = slots.machines[machine]!;
    const last = bookings.firstEndingAfter(this.schedule.start[run]!);
    // Where locks overlap one booking stands for several.
    if (last === bookings.count || bookings.run[last] !== run) return false;
    let first = NONE;
    let from = NEVER;
    let person = NONE;
    let leastDelay = NEVER;
    for (let i = last; i >= 0 && last - i < REACH; i--) {
      const booked = bookings.run[i]!;
      if (careOfBooking(booked) !== NONE) continue;
      if (!repair.canLift(booked)) break;
      const start = Math.max(bookings.start[i]!, problem.now);
      const time = this.soonest(machine, start, minutes);
      if (time >= NEVER || time - start >= leastDelay || !slots.isOpen(machine, time, time + minutes)) continue;
      leastDelay = time - start;
      first = i;
      from = time;
      person = slots.person;
    }
    if (first === NONE || !this.liftChain(bookings, first, leastDelay + minutes, from + minutes)) return false;
    repair.addCare(machine, person, from, from + minutes);
    repair.putBack();
    return true;
  }

  /** Lifts a booked run and those after it that a delay reaches, or that overlap with what ends at `until`. */
  private liftChain(bookings: Bookings, first: number, delay: number, until: number): boolean {
    const { repair } = this;
    const { chain } = this;
    chain.length = 0;
    let left = delay;
    for (let i = first; i < bookings.count && (left > 0 || bookings.start[i]! < until); i++) {
      const booked = bookings.run[i]!;
      if (i > first) left -= bookings.start[i]! - bookings.end[i - 1]!;
      if (left <= 0 && bookings.start[i]! >= until) break;
      if (careOfBooking(booked) !== NONE) {
        // What comes after an attendance may go before it or after it; the attendance stays.
        if (bookings.start[i]! < until) return false;
        break;
      }
      if (!repair.canLift(booked)) return false;
      chain.push(booked);
    }
    for (const booked of chain) repair.lift(booked);
    return true;
  }

  private soonest(machine: number, from: number, minutes: number): number {
    const { problem, own } = this;
    own.person = NONE;
    const crew = this.tools.crew[machine]!;
    return this.board.slots.crewFrom(crew, from, minutes, problem.workSpot[machine]!, NONE, own, NONE);
  }

  /** The run waits until somebody has been at the tools; with no need of that, until it is cut with somebody there. */
  private putOff(machine: number, run: number, minutes: number): boolean {
    const { problem, repair, schedule } = this;
    if (!repair.canLift(run)) return false;
    const start = schedule.start[run]!;
    repair.lift(run);
    if (minutes === 0) {
      const next = problem.attended.find((stretch) => stretch.start > start);
      if (next === undefined) return false;
      this.putBackFrom(run, next.start);
      return true;
    }
    const from = this.roomFor(machine, start, minutes, minutes + problem.optionCut[schedule.option[run]!]!);
    if (from >= NEVER) return false;
    repair.addCare(machine, this.board.slots.person, from, from + minutes);
    this.putBackFrom(run, from + minutes);
    return true;
  }

  /** The run comes back no sooner than that, this once. */
  private putBackFrom(run: number, minute: number): void {
    const { notBefore } = this.repair.wishes;
    const wished = notBefore[run]!;
    notBefore[run] = Math.max(wished, minute);
    this.repair.putBack();
    notBefore[run] = wished;
  }

  /** The first moment at which somebody is free for so many minutes and the machine for so many; sets the slots' person. */
  private roomFor(machine: number, from: number, minutes: number, whole: number): number {
    const { slots } = this.board;
    let time = from;
    for (;;) {
      time = this.soonest(machine, time, minutes);
      if (time >= NEVER) return NEVER;
      const free = slots.machineFrom(machine, time, whole);
      if (free === time) return time;
      time = free;
    }
  }

  /** What a held run lacks may have been taken by one before it that can as well come after it. */
  private stepAside(machine: number): boolean {
    const { repair, schedule } = this;
    const { run, kind } = this.ledger;
    if (repair.canLift(run) || this.helped[run]! > GIVEN_UP) return false;
    const bookings = this.board.slots.machines[machine]!;
    for (let i = bookings.firstEndingAfter(schedule.start[run]!) - 1; i >= 0; i--) {
      const booked = bookings.run[i]!;
      if (careOfBooking(booked) !== NONE || !repair.canLift(booked) || !this.uses(booked, kind)) continue;
      repair.lift(booked);
      this.putBackFrom(booked, schedule.end[run]!);
      return true;
    }
    return false;
  }

  private uses(run: number, kind: number): boolean {
    const { start, items } = this.tools.needs;
    const option = this.schedule.option[run]!;
    for (let i = start[option]!; i < start[option + 1]!; i += 2) if (items[i] === kind) return true;
    return false;
  }

  private giveUp(run: number): void {
    if (this.repair.isHeld(run)) this.schedule.isShort[run] = 1;
    else this.repair.leaveOut(run);
  }

  /** Attendances are no longer than what is done in them. */
  private trim(machine: number): void {
    const bookings = this.board.slots.machines[machine]!;
    for (let i = bookings.count - 1; i >= 0; i--) {
      const care = careOfBooking(bookings.run[i]!);
      if (care !== NONE) this.repair.shortenCare(care, this.ledger.idleMinutes(care));
    }
  }
}
