import type { Tool } from '../../../core/shop';

/** How a wheel is dressed, in short: `60 min, by hand`. */
export function dressingText({ kind, dressing }: Tool): string {
  if (dressing === null) return kind === 'wheel' ? 'never' : '–';
  return `${dressing.every} min, ${dressing.by === 'hand' ? 'by hand' : 'in cycle'}`;
}

/** How far the wheel in use goes; null where its radius does not run out. */
export function wheelText(dressing: NonNullable<Tool['dressing']>): string | null {
  const { every, usesMm, leftMm } = dressing;
  if (usesMm === 0) return null;
  const times = Math.floor(leftMm / usesMm + 1e-9);
  return `${times === 1 ? '1 dressing' : `${times} dressings`} left, ${(times + 1) * every} min of grinding with one wheel`;
}
