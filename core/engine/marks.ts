import { NONE } from '../problem';

/** A set of small whole numbers that is filled and cleared without allocating. */
export class Marks {
  readonly items: Int32Array;
  count = 0;
  private readonly isSet: Uint8Array;

  constructor(size: number) {
    this.items = new Int32Array(size);
    this.isSet = new Uint8Array(size);
  }

  /** Nothing for NONE. */
  set(item: number): void {
    if (item === NONE || this.isSet[item] === 1) return;
    this.isSet[item] = 1;
    this.items[this.count++] = item;
  }

  setAll(): void {
    for (let item = 0; item < this.isSet.length; item++) this.set(item);
  }

  clear(): void {
    for (let i = 0; i < this.count; i++) this.isSet[this.items[i]!] = 0;
    this.count = 0;
  }
}
