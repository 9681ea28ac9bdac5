/** Seeded random numbers, the same on every machine: Marsaglia's xorshift32 (J. Stat. Software 8(14), 2003). */
export class Random {
  private state: number;

  constructor(seed: number) {
    // A state of 0 stays 0; scattering the bits keeps neighbouring seeds apart.
    this.state = (Math.imul(seed | 0, 0x9e3779b1) ^ 0x6d2b79f5) | 0 || 1;
    for (let i = 0; i < 8; i++) this.next();
  }

  /** A whole number from 0 up to, not including, `limit`. */
  below(limit: number): number {
    return Math.floor(this.next() * limit);
  }

  /** From 0 up to, not including, 1. */
  next(): number {
    let x = this.state;
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    this.state = x;
    return (x >>> 0) / 0x1_0000_0000;
  }
}
