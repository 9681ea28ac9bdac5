/** A numeric array that doubles when full: appending stays cheap and nothing is boxed. */
export class GrowableFloats {
  #items = new Float64Array(64);
  #length = 0;

  get length(): number {
    return this.#length;
  }

  push(item: number): void {
    if (this.#length === this.#items.length) {
      const larger = new Float64Array(this.#length * 2);
      larger.set(this.#items);
      this.#items = larger;
    }
    this.#items[this.#length] = item;
    this.#length += 1;
  }

  toArray(): Float64Array {
    return this.#items.slice(0, this.#length);
  }
}
