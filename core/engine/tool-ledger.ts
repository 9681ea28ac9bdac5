import { NONE, type Problem, type ToolTable } from '../problem';
import { bookedCare, careOfBooking } from './book';
import type { Schedule } from './schedule';
import { SisterTools } from './sister-tools';
import type { Slots } from './slots';

/** One thing done to one sister tool in an attendance. */
export interface LedgerAct {
  readonly care: number;
  readonly kind: number;
  readonly sister: number;
  readonly isDressing: boolean;
}

/**
 * Follows the tools of one machine through its queue. The schedule's attendances to tools say when something may be
 * done, not what: each is given the least that lets the queue go on to the next one, within its minutes, and what is
 * needed first comes first. Where a need cannot be covered the attendance before it does more for that kind, and the
 * kind's cuts are taken again from there.
 */
export class ToolLedger {
  /** The run whose need is the first that cannot be covered, or NONE. */
  run = NONE;
  /** Minutes an attendance to its tools just before it would take; 0 if none would help. */
  minutes = 0;
  /** The kind it needs, as an index of the tool table. */
  kind = NONE;
  /** What is done in the attendances of the machine read last, where that was asked for. */
  readonly acts: LedgerAct[] = [];

  /** By kind. */
  private readonly sisters: readonly SisterTools[];
  // What the machine does, in order: entry `e` is one run's need of one kind, or an attendance (kind NONE). `next` is
  // the entry of the same kind that follows.
  private booked = new Int32Array(256);
  private kindOf = new Int32Array(256);
  private minutesOf = new Int32Array(256);
  private isAlone = new Uint8Array(256);
  private next = new Int32Array(256);
  private entries = 0;
  private readonly last: Int32Array;
  /** The first entry of each kind after the last attendance read. */
  private readonly resume: Int32Array;
  /** Minutes needed of each kind, whatever is done. */
  private readonly sum: Int32Array;
  /** Minutes of each attendance that no act needs. */
  private readonly room: Int32Array;
  private readonly attendedFrom: Int32Array;
  private readonly attendedTo: Int32Array;

  constructor(
    private readonly problem: Problem,
    private readonly tools: ToolTable,
    private readonly slots: Slots,
    private readonly schedule: Schedule,
  ) {
    this.sisters = Array.from(tools.tool.keys(), (kind) => new SisterTools(tools, kind));
    this.resume = new Int32Array(tools.tool.length);
    this.last = new Int32Array(tools.tool.length);
    this.sum = new Int32Array(tools.tool.length);
    this.room = new Int32Array(problem.careCount);
    this.attendedFrom = Int32Array.from(problem.attended, ({ start }) => start);
    this.attendedTo = Int32Array.from(problem.attended, ({ end }) => end);
  }

  /**
   * Reads a machine's queue. True if every need in it is covered; otherwise it is read no further than to the first that
   * is not.
   */
  read(machine: number, withActs = false): boolean {
    const [from, to] = [this.tools.first[machine]!, this.tools.first[machine + 1]!];
    this.run = NONE;
    this.acts.length = 0;
    if (from === to) return true;
    this.lineUp(machine, from, to);
    let care = NONE;
    for (let entry = 0; entry < this.entries; entry++) {
      const kind = this.kindOf[entry]!;
      if (kind === NONE) {
        if (withActs) this.noteActs(care, from, to);
        care = careOfBooking(this.booked[entry]!);
        for (let k = from; k < to; k++) {
          this.sisters[k]!.remember();
          this.resume[k] = NONE;
        }
        continue;
      }
      if (this.sum[kind]! <= this.sisters[kind]!.surplus) continue;
      if (this.resume[kind] === NONE) this.resume[kind] = entry;
      if (!this.cover(entry, care)) return false;
    }
    if (withActs) this.noteActs(care, from, to);
    return true;
  }

  /** Takes one need; where there is too little, more is done at the attendance before. False if that does not help. */
  private cover(entry: number, care: number): boolean {
    const kind = this.kindOf[entry]!;
    const sisters = this.sisters[kind]!;
    const isAlone = this.isAlone[entry] === 1;
    if (sisters.cut(this.minutesOf[entry]!, isAlone)) return true;
    sisters.keepActs();
    const before = sisters.actMinutes;
    while (care !== NONE && sisters.doMore(this.room[care]! + before)) {
      if (!this.takeAgain(kind, entry)) continue;
      this.room[care]! += before - sisters.actMinutes;
      return true;
    }
    sisters.undoActs();
    if (this.schedule.isShort[this.booked[entry]!] === 1) {
      // It takes what there is, as all before it have.
      this.takeAgain(kind, entry);
      return true;
    }
    this.note(entry);
    return false;
  }

  /** Takes a kind's needs from the last attendance up to an entry; true if all are covered. */
  private takeAgain(kind: number, until: number): boolean {
    const sisters = this.sisters[kind]!;
    sisters.goBack();
    for (let entry = this.resume[kind]!; entry !== NONE && entry <= until; entry = this.next[entry]!) {
      const isAlone = this.isAlone[entry] === 1;
      if (sisters.cut(this.minutesOf[entry]!, isAlone)) continue;
      if (this.schedule.isShort[this.booked[entry]!] !== 1) return false;
      sisters.takeWhatThereIs(isAlone);
    }
    return true;
  }

  /** Minutes of an attendance at the machine read last that nothing there has a use for. */
  idleMinutes(care: number): number {
    return this.room[care]!;
  }

  private lineUp(machine: number, from: number, to: number): void {
    const { count, run, hasMerged } = this.slots.machines[machine]!;
    for (let kind = from; kind < to; kind++) {
      this.sum[kind] = 0;
      this.last[kind] = this.resume[kind] = NONE;
      this.sisters[kind]!.open();
    }
    this.entries = 0;
    if (hasMerged) for (const booked of this.allAt(machine)) this.append(booked);
    else for (let i = 0; i < count; i++) this.append(run[i]!);
  }

  private append(booked: number): void {
    const { schedule } = this;
    const care = careOfBooking(booked);
    if (care !== NONE) {
      this.room[care] = schedule.careEnd[care]! - schedule.careStart[care]!;
      this.enter(NONE, booked, 0, 0);
      return;
    }
    if (schedule.end[booked]! <= this.problem.now) return;
    const { start, items } = this.tools.needs;
    const option = schedule.option[booked]!;
    if (start[option] === start[option + 1]) return;
    const isAlone = Number(this.isUnattended(booked));
    for (let i = start[option]!; i < start[option + 1]!; i += 2) this.enter(items[i]!, booked, items[i + 1]!, isAlone);
  }

  private enter(kind: number, booked: number, minutes: number, isAlone: number): void {
    if (this.entries === this.booked.length) this.grow();
    const entry = this.entries++;
    this.booked[entry] = booked;
    this.kindOf[entry] = kind;
    this.minutesOf[entry] = minutes;
    this.isAlone[entry] = isAlone;
    this.next[entry] = NONE;
    if (kind === NONE) return;
    this.sum[kind]! += minutes;
    if (this.last[kind] !== NONE) this.next[this.last[kind]!] = entry;
    this.last[kind] = entry;
  }

  private grow(): void {
    const bigger = <T extends Int32Array | Uint8Array>(old: T, grown: T): T => {
      grown.set(old);
      return grown;
    };
    const size = 2 * this.booked.length;
    this.booked = bigger(this.booked, new Int32Array(size));
    this.kindOf = bigger(this.kindOf, new Int32Array(size));
    this.minutesOf = bigger(this.minutesOf, new Int32Array(size));
    this.isAlone = bigger(this.isAlone, new Uint8Array(size));
    this.next = bigger(this.next, new Int32Array(size));
  }

  /** Where locks overlap, the bookings do not tell them apart. */
  private allAt(machine: number): number[] {
    const { schedule, problem } = this;
    const { careMachine, careStart, start, option, placed } = schedule;
    const cares = Array.from(careMachine.keys()).filter((care) => careMachine[care] === machine);
    const runs = Array.from(placed.keys()).filter(
      (run) => placed[run] === 1 && problem.optionMachine[option[run]!] === machine,
    );
    const from = (booked: number) => (booked < NONE ? careStart[careOfBooking(booked)]! : start[booked]!);
    return [...cares.map(bookedCare), ...runs].sort((a, b) => from(a) - from(b) || a - b);
  }

  private noteActs(care: number, from: number, to: number): void {
    if (care === NONE) return;
    for (let kind = from; kind < to; kind++) {
      for (const [sister, isDressing] of this.sisters[kind]!.acts()) this.acts.push({ care, kind, sister, isDressing });
    }
  }

  /** What an attendance just before the run would have to do; what was done before that stays. */
  private note(entry: number): void {
    const kind = this.kindOf[entry]!;
    const sisters = this.sisters[kind]!;
    this.run = this.booked[entry]!;
    this.kind = kind;
    this.minutes = 0;
    if (this.resume[kind] !== NONE && this.resume[kind]! < entry) this.takeAgain(kind, entry - 1);
    else sisters.goBack();
    sisters.remember();
    while (sisters.doMore(Number.POSITIVE_INFINITY)) {
      sisters.goBack();
      if (!sisters.cut(this.minutesOf[entry]!, this.isAlone[entry] === 1)) continue;
      this.minutes = sisters.actMinutes;
      return;
    }
  }

  /** True if any minute of the cut from now on lies in unattended time. */
  isUnattended(run: number): boolean {
    const { attendedFrom, attendedTo, schedule, problem } = this;
    const from = Math.max(schedule.start[run]!, problem.now);
    let [low, high] = [0, attendedTo.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (attendedTo[middle]! > from) high = middle;
      else low = middle + 1;
    }
    return low === attendedTo.length || attendedFrom[low]! > from || attendedTo[low]! < schedule.end[run]!;
  }
}

/** What is done in each attendance of a schedule whose needs are all covered. */
export function careActs(problem: Problem, slots: Slots, schedule: Schedule): LedgerAct[] {
  if (problem.tools === null) return [];
  const ledger = new ToolLedger(problem, problem.tools, slots, schedule);
  return problem.machineIds.flatMap((_, machine) => {
    ledger.read(machine, true);
    return [...ledger.acts];
  });
}
