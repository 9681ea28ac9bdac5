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
 * done, not what: each is given the least that lets the queue go on to the next one, within its minutes. One kind is
 * followed at a time; where a need cannot be covered, the attendance before it does more, and the queue is read again
 * from there.
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

  private readonly sisters: SisterTools;
  /** What the machine does, in order, as it stands in its bookings. */
  private queue = new Int32Array(64);
  private count = 0;
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
    this.sisters = new SisterTools(tools);
    this.room = new Int32Array(problem.careCount);
    this.attendedFrom = Int32Array.from(problem.attended, ({ start }) => start);
    this.attendedTo = Int32Array.from(problem.attended, ({ end }) => end);
  }

  /** Reads a machine's queue. True if every need in it is covered. */
  read(machine: number, withActs = false): boolean {
    const { first } = this.tools;
    this.run = NONE;
    this.acts.length = 0;
    if (first[machine] === first[machine + 1]) return true;
    this.lineUp(machine);
    for (let kind = first[machine]!; kind < first[machine + 1]!; kind++) this.follow(kind, withActs);
    return this.run === NONE;
  }

  /** Minutes of an attendance at the machine read last that nothing there has a use for. */
  idleMinutes(care: number): number {
    return this.room[care]!;
  }

  private lineUp(machine: number): void {
    const { count, run, hasMerged } = this.slots.machines[machine]!;
    this.count = 0;
    if (hasMerged) for (const booked of this.allAt(machine)) this.append(booked);
    else for (let i = 0; i < count; i++) this.append(run[i]!);
  }

  private append(booked: number): void {
    const { schedule } = this;
    const care = careOfBooking(booked);
    if (care !== NONE) this.room[care] = schedule.careEnd[care]! - schedule.careStart[care]!;
    else if (schedule.end[booked]! <= this.problem.now) return;
    if (this.count === this.queue.length) this.queue = grown(this.queue);
    this.queue[this.count++] = booked;
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

  private follow(kind: number, withActs: boolean): void {
    const { sisters } = this;
    sisters.open(kind);
    let care = NONE;
    let careAt = 0;
    for (let i = 0; i < this.count; i++) {
      const next = careOfBooking(this.queue[i]!);
      if (next !== NONE) {
        this.close(care, withActs);
        care = next;
        careAt = i;
        sisters.remember();
        continue;
      }
      const run = this.queue[i]!;
      const minutes = this.needOf(run, kind);
      if (minutes === 0 || sisters.cut(minutes, this.isUnattended(run))) continue;
      if (care !== NONE && sisters.doMore(this.room[care]!)) {
        i = careAt;
      } else if (this.schedule.isShort[run] === 1) {
        sisters.takeWhatThereIs(this.isUnattended(run));
      } else {
        this.close(care, withActs);
        this.note(run, kind, minutes);
        return;
      }
    }
    this.close(care, withActs);
  }

  /** Gives an attendance the acts of the kind followed. */
  private close(care: number, withActs: boolean): void {
    if (care === NONE) return;
    const { sisters } = this;
    this.room[care]! -= sisters.actMinutes();
    if (!withActs) return;
    for (const [sister, isDressing] of sisters.acts()) {
      this.acts.push({ care, kind: sisters.kind, sister, isDressing });
    }
  }

  private note(run: number, kind: number, minutes: number): void {
    const { schedule, sisters } = this;
    if (this.run !== NONE && schedule.start[run]! >= schedule.start[this.run]!) return;
    this.run = run;
    this.kind = kind;
    sisters.remember();
    this.minutes = 0;
    while (sisters.doMore(Number.POSITIVE_INFINITY)) {
      if (!sisters.cut(minutes, this.isUnattended(run))) continue;
      this.minutes = sisters.actMinutes();
      return;
    }
  }

  private needOf(run: number, kind: number): number {
    const { start, items } = this.tools.needs;
    const option = this.schedule.option[run]!;
    for (let i = start[option]!; i < start[option + 1]!; i += 2) if (items[i] === kind) return items[i + 1]!;
    return 0;
  }

  /** True if any minute of the cut from now on lies in unattended time. */
  private isUnattended(run: number): boolean {
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

function grown(old: Int32Array): Int32Array<ArrayBuffer> {
  const bigger = new Int32Array(2 * old.length);
  bigger.set(old);
  return bigger;
}
