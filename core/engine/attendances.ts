import { ROUND_PAUSE } from '../shop';
import { Bookings } from './bookings';

/** One person's attendances. Keeps count of the rounds they make, so that a change costs no walk through all of them. */
export class Attendances extends Bookings {
  /** Attendances that begin a round: more lies between them and the one before than the walk and a short pause. */
  rounds = 0;

  constructor(
    private readonly walk: Int32Array,
    private readonly spotCount: number,
  ) {
    super();
  }

  override clear(): void {
    super.clear();
    this.rounds = 0;
  }

  override add(start: number, end: number, spot: number, run: number): number {
    const at = super.add(start, end, spot, run);
    if (at < 0) this.recount();
    else this.rounds += this.begins(at - 1, at) + this.begins(at, at + 1) - this.begins(at - 1, at + 1);
    return at;
  }

  override remove(start: number): number {
    const at = this.indexOf(start);
    this.rounds -= this.begins(at - 1, at) + this.begins(at, at + 1) - this.begins(at - 1, at + 1);
    return super.remove(start);
  }

  /** Fills in attendances that may overlap: locks that cannot hold. */
  fill(sorted: readonly { start: number; end: number; spot: number }[]): void {
    this.start = Int32Array.from(sorted, ({ start }) => start);
    this.end = Int32Array.from(sorted, ({ end }) => end);
    this.spot = Int32Array.from(sorted, ({ spot }) => spot);
    this.count = sorted.length;
    this.recount();
  }

  private recount(): void {
    this.rounds = 0;
    for (let i = 0; i < this.count; i++) this.rounds += this.begins(i - 1, i);
  }

  /** 1 if the attendance begins a round after the one before it (-1 for none); 0 if it does not or there is none. */
  private begins(before: number, at: number): number {
    if (at >= this.count) return 0;
    if (before < 0) return 1;
    const there = this.walk[this.spot[before]! * this.spotCount + this.spot[at]!]!;
    return Number(this.start[at]! - this.end[before]! > there + ROUND_PAUSE);
  }
}
