/** Pairs of runs share this many slots of a tabu list by hash; two pairs in one slot only make it a little stricter. */
export const SLOTS = 1 << 16;

/** Slot of "`first` before `second`". */
export function slot(first: number, second: number): number {
  return (Math.imul(first, 0x9e3779b1) ^ Math.imul(second, 0x85ebca6b)) >>> 16;
}
