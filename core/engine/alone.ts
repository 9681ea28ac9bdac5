import type { Problem } from '../problem';
import type { Interval } from '../time';
import { careOfBooking } from './book';
import type { Schedule } from './schedule';
import type { Slots } from './slots';

/** Keeps what has not earned it, and what nobody has checked, from cutting with nobody there. */
export class AloneRule {
  /** False where it never has anything to say. */
  private readonly applies: boolean;

  constructor(
    private readonly problem: Problem,
    private readonly slots: Slots,
    private readonly schedule: Schedule,
  ) {
    this.applies =
      problem.suspects.some((parts) => parts > 0) || problem.optionAlone.some((minutes) => minutes < problem.horizon);
  }

  /**
   * The start itself if a run may cut from `start` to `end` on an option; otherwise a later moment before which it may not
   * start.
   */
  soonest(run: number, option: number, start: number, end: number): number {
    if (!this.applies || this.problem.isBench[this.problem.optionMachine[option]!] === 1) return start;
    for (const stretch of this.problem.unattended) {
      if (stretch.start >= end) break;
      if (stretch.end <= start) continue;
      const most = this.problem.optionAlone[option]!;
      if (Math.min(end, stretch.end) - Math.max(start, stretch.start) > most) {
        return Math.max(start + 1, stretch.end - most);
      }
      if (this.isSuspect(run, option, stretch)) return stretch.end;
    }
    return start;
  }

  private isSuspect(run: number, option: number, stretch: Interval): boolean {
    const { suspects, suspectLimit, runJob, optionMachine } = this.problem;
    if (suspects[run] === 0) return false;
    const bookings = this.slots.machines[optionMachine[option]!]!;
    let parts = suspects[run]!;
    for (let i = bookings.firstEndingAfter(stretch.start); i < bookings.count; i++) {
      if (bookings.start[i]! >= stretch.end) break;
      const other = bookings.run[i]!;
      if (careOfBooking(other) >= 0 || other === run || runJob[other] !== runJob[run]) continue;
      const { start, end } = this.schedule;
      if (start[other]! < stretch.end && end[other]! > stretch.start) parts += suspects[other]!;
    }
    return parts > suspectLimit[run]!;
  }
}
