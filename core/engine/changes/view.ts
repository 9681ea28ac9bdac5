import { NONE, type Problem } from '../../problem';
import type { Board } from '../board';
import { careOfBooking } from '../book';
import type { Bookings } from '../bookings';
import type { Random } from '../random';
import type { Repair } from '../repair';

/** What every kind of change looks at and works with. */
export class View {
  /** Runs picked for the change being made, in the order in which they are to be put back. */
  readonly chosen: number[] = [];

  constructor(
    readonly problem: Problem,
    readonly board: Board,
    readonly random: Random,
    readonly repair: Repair,
  ) {}

  anyRun(): number {
    return this.random.below(this.problem.runCount);
  }

  isPlaced(run: number): boolean {
    return this.board.schedule.placed[run] === 1;
  }

  /** The bookings of the machine a placed run is on. */
  bookingsOf(run: number): Bookings {
    const { problem, board } = this;
    return board.slots.machines[problem.optionMachine[board.schedule.option[run]!]!]!;
  }

  /** The index of a placed run among the bookings of its machine. */
  indexOf(run: number, bookings: Bookings): number {
    const { start, end } = this.board.schedule;
    let i = bookings.firstEndingAfter(start[run]!);
    while (i < bookings.count && bookings.run[i] !== run && bookings.start[i]! < end[run]!) i++;
    return i;
  }

  /** Picks the runs, other than `run`, that a machine cuts between two minutes. */
  chooseWithin(bookings: Bookings, from: number, to: number, run: number): void {
    const { chosen } = this;
    chosen.length = 0;
    for (let i = bookings.firstEndingAfter(from); i < bookings.count && bookings.start[i]! < to; i++) {
      if (bookings.run[i] !== run) this.choose(bookings.run[i]!);
    }
  }

  /** Picks what stands in the bookings, if it is a run: attendances to tools stay where they are. */
  choose(booked: number): void {
    if (careOfBooking(booked) === NONE) this.chosen.push(booked);
  }

  /** Moves one of the picked runs, if there are any, to another place in their order. */
  moveChosen(from: number, to: number): void {
    this.chosen.splice(to, 0, ...this.chosen.splice(from, 1));
  }

  shuffleChosen(): void {
    const { chosen, random } = this;
    for (let i = chosen.length - 1; i > 0; i--) this.moveChosen(random.below(i + 1), i);
  }

  /** Lifts everything that comes after a run on its parts. */
  liftFollowers(run: number): void {
    const { start, items } = this.problem.after;
    for (let i = start[run]!; i < start[run + 1]!; i++) {
      const next = items[i]!;
      if (!this.isPlaced(next) || !this.repair.canLift(next)) continue;
      this.repair.lift(next);
      this.liftFollowers(next);
    }
  }

  liftChosen(): boolean {
    for (const run of this.chosen) this.repair.lift(run);
    return this.chosen.length > 0;
  }
}
