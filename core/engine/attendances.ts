import { ROUND_PAUSE } from '../shop';
import { Bookings } from './bookings';

/** Attendances that share one entry of {@link Attendances.widest}; a power of two. */
const CHUNK = 16;

/** Longer than any attendance. */
const ENDLESS = 0x3fffffff;

/**
 * One person's attendances. Keeps count of the rounds they make, so that a change costs no walk through all of them, and
 * of the widest gap in each chunk, so that a search for a gap leaps over a busy morning.
 */
export class Attendances extends Bookings {
  /** Attendances that begin a round: more lies between them and the one before than the walk and a short pause. */
  rounds = 0;
  /** The widest gap before any attendance of the chunk. */
  private widest = new Int32Array(4);

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
    this.measureGaps(Math.max(0, at));
    if (at < 0) this.recount();
    else this.rounds += this.begins(at - 1, at) + this.begins(at, at + 1) - this.begins(at - 1, at + 1);
    return at;
  }

  override remove(start: number): number {
    const at = this.indexOf(start);
    this.rounds -= this.begins(at - 1, at) + this.begins(at, at + 1) - this.begins(at - 1, at + 1);
    super.remove(start);
    this.measureGaps(at);
    return at;
  }

  /** How many more rounds there would be with another attendance just before the one at index `after`: -1, 0 or 1. */
  roundsWith(after: number, start: number, end: number, spot: number): number {
    const before = after - 1;
    const isFirst = before < 0;
    const isLast = after >= this.count;
    const begun = isFirst || this.isPause(this.end[before]!, start, this.spot[before]!, spot);
    const beginsAfter = !isLast && this.isPause(end, this.start[after]!, spot, this.spot[after]!);
    return Number(begun) + Number(beginsAfter) - this.begins(before, after);
  }

  /** The first attendance from `index` on, at least 1, with `length` minutes free before it; the count if none has. */
  nextAfterGap(index: number, length: number): number {
    const { count, start, end, widest } = this;
    let i = index;
    while (i < count) {
      if (i % CHUNK === 0 && widest[i / CHUNK]! < length) {
        i += CHUNK;
        continue;
      }
      if (start[i]! - end[i - 1]! >= length) return i;
      i++;
    }
    return count;
  }

  /** The last attendance up to `index` with `length` minutes free before it; 0 if none has, for nothing is before that. */
  previousAfterGap(index: number, length: number): number {
    const { start, end, widest } = this;
    let i = index;
    while (i > 0) {
      if (i % CHUNK === CHUNK - 1 && widest[(i - CHUNK + 1) / CHUNK]! < length) {
        i -= CHUNK;
        continue;
      }
      if (start[i]! - end[i - 1]! >= length) return i;
      i--;
    }
    return 0;
  }

  private measureGaps(from: number): void {
    const { count, start, end } = this;
    const chunks = Math.ceil(count / CHUNK);
    if (chunks > this.widest.length) {
      const grown = new Int32Array(2 * chunks);
      grown.set(this.widest);
      this.widest = grown;
    }
    for (let chunk = Math.floor(from / CHUNK); chunk < chunks; chunk++) {
      let widest = chunk === 0 ? ENDLESS : 0;
      const last = Math.min(count, (chunk + 1) * CHUNK);
      for (let i = Math.max(1, chunk * CHUNK); i < last; i++) widest = Math.max(widest, start[i]! - end[i - 1]!);
      this.widest[chunk] = widest;
    }
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
    return Number(this.isPause(this.end[before]!, this.start[at]!, this.spot[before]!, this.spot[at]!));
  }

  /** True if the time between two attendances, at one spot and then at another, parts two rounds. */
  private isPause(end: number, start: number, from: number, to: number): boolean {
    return start - end > this.walk[from * this.spotCount + to]! + ROUND_PAUSE;
  }
}
