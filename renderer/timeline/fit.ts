import type { Interval } from '../../core/time';
import type { TimelineModel } from './model';

/** Views worth a button. */
export type Fit = 'tonight' | 'week' | 'all';

const DAY_MIN = 1440;

/** The time each of them shows. Without a night, "tonight" is the next 24 hours. */
export function fitSpan(model: TimelineModel, fit: Fit): Interval {
  const now = model.busy.start;
  if (fit === 'week') return { start: now - 120, end: Math.min(now + 7 * DAY_MIN, model.limits.end) };
  if (fit === 'all') return { start: now - 120, end: model.busy.end };
  return { start: now - 30, end: model.tonight === null ? now + DAY_MIN : model.tonight.end + 90 };
}
