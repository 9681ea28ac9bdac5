/** What one random number is for: the same run has its own luck in each. */
export const BLOCKS = 1;
export const BLOCKS_WHEN = 2;
export const LOSES = 3;
export const CHANGES_PALLET = 4;
export const CYCLE = 5;
export const WEARS = 6;
export const SHARED = 7;
export const SHARED_WHEN = 8;
/** Checks of a run count on from here, one for each. */
export const CHECKS = 16;

/**
 * Random numbers that hang on nothing but the seed, the night, the thing they are for and the purpose: in two plans the
 * same run has the same luck in the same night, wherever it stands, so that they are compared fairly (common random
 * numbers). The bits are mixed as by the finaliser of MurmurHash3 (A. Appleby, public domain; constants from memory).
 */
export class Draws {
  private night = 0;

  constructor(private readonly seed: number) {}

  begin(night: number): void {
    this.night = mix(Math.imul(this.seed + 1, 0x9e3779b1) ^ Math.imul(night + 1, 0x85ebca6b));
  }

  /** Above 0 and below 1. */
  next(key: number, purpose: number): number {
    const bits = mix(mix(this.night ^ key) + Math.imul(purpose, 0x27d4eb2f));
    return ((bits >>> 0) + 0.5) / 0x1_0000_0000;
  }
}

/** A whole number for a name, the same on every machine (FNV-1a, mixed). */
export function keyOf(name: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < name.length; i++) hash = Math.imul(hash ^ name.charCodeAt(i), 0x01000193);
  return mix(hash);
}

function mix(value: number): number {
  let x = value;
  x = Math.imul(x ^ (x >>> 16), 0x85ebca6b);
  x = Math.imul(x ^ (x >>> 13), 0xc2b2ae35);
  return x ^ (x >>> 16);
}
