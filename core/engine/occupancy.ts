/** How many of a limited number of places or stations are taken over time: a step function in growing typed arrays. */
export class Occupancy {
  /** Step `i` holds from `time[i]` to `time[i + 1]`; the last one for ever. */
  private time = new Int32Array(32);
  private level = new Int32Array(32);
  private count = 1;

  constructor(readonly limit: number) {
    this.clear();
  }

  clear(): void {
    this.count = 1;
    this.time[0] = -0x40000000;
    this.level[0] = 0;
  }

  add(from: number, to: number): void {
    this.shift(from, to, 1);
  }

  remove(from: number, to: number): void {
    this.shift(from, to, -1);
  }

  /** End of the last time between `from` and `to` at which all are taken, or -1 if one is free throughout. */
  lastFull(from: number, to: number): number {
    for (let i = this.stepAt(to - 1); i >= 0; i--) {
      if (this.level[i]! >= this.limit) return this.fullUntil(i);
      if (this.time[i]! <= from) return -1;
    }
    return -1;
  }

  private fullUntil(step: number): number {
    let i = step + 1;
    while (i < this.count && this.level[i]! >= this.limit) i++;
    return i < this.count ? this.time[i]! : 0x3fffffff;
  }

  /** Start of the first time between `from` and `to` at which all are taken, or -1 if one is free throughout. */
  firstFull(from: number, to: number): number {
    for (let i = this.stepAt(from); i < this.count && this.time[i]! < to; i++) {
      if (this.level[i]! >= this.limit) return this.time[i]!;
    }
    return -1;
  }

  private stepAt(time: number): number {
    let low = 0;
    let high = this.count - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.time[middle]! <= time) low = middle;
      else high = middle - 1;
    }
    return low;
  }

  private shift(from: number, to: number, by: number): void {
    const first = this.split(from);
    const last = this.split(to);
    for (let i = first; i < last; i++) this.level[i]! += by;
    // The later one first: the earlier one's index stays what it is.
    this.join(last);
    this.join(first);
  }

  /** Takes out the step if it is none: a search that adds and removes for hours must not leave thousands behind. */
  private join(step: number): void {
    if (step === 0 || this.level[step - 1] !== this.level[step]) return;
    this.time.copyWithin(step, step + 1, this.count);
    this.level.copyWithin(step, step + 1, this.count);
    this.count--;
  }

  /** Index of the step that begins at `time`, made if it is not there. */
  private split(time: number): number {
    const at = this.stepAt(time);
    if (this.time[at] === time) return at;
    if (this.count === this.time.length) this.grow();
    this.time.copyWithin(at + 2, at + 1, this.count);
    this.level.copyWithin(at + 2, at + 1, this.count);
    this.time[at + 1] = time;
    this.level[at + 1] = this.level[at]!;
    this.count++;
    return at + 1;
  }

  private grow(): void {
    const time = new Int32Array(this.time.length * 2);
    const level = new Int32Array(this.level.length * 2);
    time.set(this.time);
    level.set(this.level);
    this.time = time;
    this.level = level;
  }
}
