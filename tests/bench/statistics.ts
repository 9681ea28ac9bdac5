/** How far a makespan or cost is above another, percent of that other; null where the other is zero. */
export function distance(found: number, from: number): number | null {
  return Math.abs(from) < 1e-9 ? null : (100 * (found - from)) / Math.abs(from);
}

/** Null of nothing. */
export function mean(values: readonly number[]): number | null {
  return values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;
}

/**
 * The power b of y = a * x^b that fits the points best: the least-squares slope of log y over log x. Points that are
 * not above zero are left out; null where fewer than two sizes remain.
 */
export function growthExponent(points: readonly { readonly x: number; readonly y: number }[]): number | null {
  const logs = points.filter(({ x, y }) => x > 0 && y > 0).map(({ x, y }) => ({ x: Math.log(x), y: Math.log(y) }));
  const [middleX, middleY] = [mean(logs.map(({ x }) => x)), mean(logs.map(({ y }) => y))];
  if (middleX === null || middleY === null) return null;
  const spread = logs.reduce((sum, { x }) => sum + (x - middleX) ** 2, 0);
  if (spread < 1e-12) return null;
  return logs.reduce((sum, { x, y }) => sum + (x - middleX) * (y - middleY), 0) / spread;
}

/** A cost at a moment of a search. */
export interface Moment {
  readonly seconds: number;
  readonly total: number;
}

/** Seconds until the search first had a cost within this share of its last one. */
export function secondsToWithin(moments: readonly Moment[], share: number): number | null {
  const last = moments.at(-1);
  if (last === undefined) return null;
  const enough = last.total + share * Math.abs(last.total) + 1e-6;
  return moments.find(({ total }) => total <= enough)?.seconds ?? null;
}
