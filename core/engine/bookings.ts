/**
 * The times one resource is taken, sorted and disjoint, in typed arrays that grow but never shrink, so that a search
 * which clears and refills them a million times allocates nothing.
 */
export class Bookings {
  start = new Int32Array(16);
  end = new Int32Array(16);
  /** Where the resource was during each booking; only people use it. */
  spot = new Int32Array(16);
  /** The run each booking is for. */
  run = new Int32Array(16);
  count = 0;
  /** True where locks that cannot hold overlap: one booking then stands for several. */
  hasMerged = false;

  clear(): void {
    this.count = 0;
    this.hasMerged = false;
  }

  /** Index of the first booking that ends after `time`; `count` if none does. */
  firstEndingAfter(time: number): number {
    let low = 0;
    let high = this.count;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.end[middle]! > time) high = middle;
      else low = middle + 1;
    }
    return low;
  }

  /** First moment at or after `time` from which nothing is booked for `length` minutes. */
  firstGap(time: number, length: number): number {
    let from = time;
    for (let i = this.firstEndingAfter(from); i < this.count && this.start[i]! < from + length; i++) {
      from = this.end[i]!;
    }
    return from;
  }

  /** True if nothing is booked between `from` and `to`. */
  isFree(from: number, to: number): boolean {
    const i = this.firstEndingAfter(from);
    return i === this.count || this.start[i]! >= to;
  }

  /** Its index, or -1 where it overlaps others and became one booking with them. */
  add(start: number, end: number, spot: number, run: number): number {
    if (this.count === this.start.length) this.grow();
    const i = this.firstStartingFrom(start);
    // Only locks that cannot hold overlap; one booking for both keeps the rest of the search simple.
    const overlapsBefore = i > 0 && this.end[i - 1]! > start;
    const overlapsAfter = i < this.count && this.start[i]! < end;
    if (overlapsBefore || overlapsAfter) {
      this.merge(start, end, spot, run);
      return -1;
    }
    this.start.copyWithin(i + 1, i, this.count);
    this.end.copyWithin(i + 1, i, this.count);
    this.spot.copyWithin(i + 1, i, this.count);
    this.run.copyWithin(i + 1, i, this.count);
    this.start[i] = start;
    this.end[i] = end;
    this.spot[i] = spot;
    this.run[i] = run;
    this.count++;
    return i;
  }

  /** Takes back a booking made by {@link add}; returns the index it had. */
  remove(start: number): number {
    const i = this.indexOf(start);
    this.start.copyWithin(i, i + 1, this.count);
    this.end.copyWithin(i, i + 1, this.count);
    this.spot.copyWithin(i, i + 1, this.count);
    this.run.copyWithin(i, i + 1, this.count);
    this.count--;
    return i;
  }

  /** Index of the booking that begins at `start`, which there must be. */
  protected indexOf(start: number): number {
    const i = this.firstStartingFrom(start);
    if (i === this.count || this.start[i] !== start) throw new Error(`nothing is booked from minute ${start}`);
    return i;
  }

  private firstStartingFrom(time: number): number {
    let low = 0;
    let high = this.count;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.start[middle]! >= time) high = middle;
      else low = middle + 1;
    }
    return low;
  }

  private merge(start: number, end: number, spot: number, run: number): void {
    this.hasMerged = true;
    const first = this.firstEndingAfter(start);
    let last = first;
    let [from, to] = [start, end];
    while (last < this.count && this.start[last]! < end) {
      from = Math.min(from, this.start[last]!);
      to = Math.max(to, this.end[last]!);
      last++;
    }
    this.start.copyWithin(first + 1, last, this.count);
    this.end.copyWithin(first + 1, last, this.count);
    this.spot.copyWithin(first + 1, last, this.count);
    this.run.copyWithin(first + 1, last, this.count);
    this.count += 1 - (last - first);
    this.start[first] = from;
    this.end[first] = to;
    this.spot[first] = spot;
    this.run[first] = run;
  }

  private grow(): void {
    const bigger = (old: Int32Array) => {
      const grown = new Int32Array(old.length * 2);
      grown.set(old);
      return grown;
    };
    this.start = bigger(this.start);
    this.end = bigger(this.end);
    this.spot = bigger(this.spot);
    this.run = bigger(this.run);
  }
}
