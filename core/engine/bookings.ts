/**
 * The times one resource is taken, sorted and disjoint, in typed arrays that grow but never shrink, so that a search
 * which clears and refills them a million times allocates nothing.
 */
export class Bookings {
  start = new Int32Array(16);
  end = new Int32Array(16);
  /** Where the resource was during each booking; only people use it. */
  spot = new Int32Array(16);
  count = 0;

  clear(): void {
    this.count = 0;
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

  add(start: number, end: number, spot: number): void {
    if (this.count === this.start.length) this.grow();
    let i = this.count;
    while (i > 0 && this.start[i - 1]! >= start) i--;
    // Only locks that cannot hold overlap; one booking for both keeps the rest of the search simple.
    const overlapsBefore = i > 0 && this.end[i - 1]! > start;
    const overlapsAfter = i < this.count && this.start[i]! < end;
    if (overlapsBefore || overlapsAfter) {
      this.merge(start, end, spot);
      return;
    }
    this.start.copyWithin(i + 1, i, this.count);
    this.end.copyWithin(i + 1, i, this.count);
    this.spot.copyWithin(i + 1, i, this.count);
    this.start[i] = start;
    this.end[i] = end;
    this.spot[i] = spot;
    this.count++;
  }

  /** Takes back a booking made by {@link add}. */
  remove(start: number): void {
    let i = this.firstEndingAfter(start);
    while (this.start[i] !== start) i++;
    this.start.copyWithin(i, i + 1, this.count);
    this.end.copyWithin(i, i + 1, this.count);
    this.spot.copyWithin(i, i + 1, this.count);
    this.count--;
  }

  private merge(start: number, end: number, spot: number): void {
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
    this.count += 1 - (last - first);
    this.start[first] = from;
    this.end[first] = to;
    this.spot[first] = spot;
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
  }
}
