import type { Minute } from './clock';
import { type Interval, subtract, union } from './interval';

/** A time with (attended) or without (unattended) anybody in the shop. */
export interface Stretch extends Interval {
  readonly attended: boolean;
}

/** An unattended stretch shorter than this is a gap between people, not a night. Common practice, no source. */
export const SHORTEST_NIGHT = 120;

/**
 * `within` cut into stretches in order. People in their break are still in the shop, so pass their hours with the
 * breaks left in.
 */
export function stretchesOf(presence: readonly Interval[], within: Interval): Stretch[] {
  const unattended = subtract([within], presence);
  const attended = subtract([within], unattended);
  return [
    ...union(attended).map((i) => ({ ...i, attended: true })),
    ...unattended.map((i) => ({ ...i, attended: false })),
  ].sort((a, b) => a.start - b.start);
}

/**
 * Tonight: the first unattended stretch that is not over at `now` and lasts at least {@link SHORTEST_NIGHT} minutes,
 * or null if there is none.
 */
export function tonightOf(stretches: readonly Stretch[], now: Minute): Stretch | null {
  return stretches.find((s) => !s.attended && s.end > now && s.end - s.start >= SHORTEST_NIGHT) ?? null;
}
