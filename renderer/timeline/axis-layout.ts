import type { Minute } from '../../core/time';
import { type Label, labelBetween, type Measure, TEXT_PAD } from './label';
import type { TimelineModel } from './model';
import { type Scale, spanOf, toPx } from './scale';
import { dayTicks, hourTicks, stepFor } from './ticks';
import { eachWithin } from './track';

/** The axis over the rows: days, times of day, and who is in the shop. */
export interface AxisLayout {
  readonly days: readonly { readonly x: number; readonly label: Label | null }[];
  readonly hours: readonly { readonly x: number; readonly label: string }[];
  readonly presence: readonly {
    readonly x0: number;
    readonly x1: number;
    readonly attended: boolean;
    readonly label: Label | null;
  }[];
  readonly now: { readonly x: number; readonly label: Label } | null;
}

const HOUR_APART_CSS = 52;

export function layoutAxis(
  model: TimelineModel,
  scale: Scale,
  nowMin: Minute,
  nowLabel: string,
  dpr: number,
  measure: Measure,
): AxisLayout {
  const span = spanOf(scale);
  const snap = (minute: Minute): number => Math.round(toPx(scale, minute) * dpr) / dpr;
  /** Written where its stretch begins, or at the left edge while the beginning is off screen. */
  const written = (from: number, to: number, lineX: number | null, texts: readonly string[]): Label | null =>
    labelBetween({ x0: Math.max(from, 0), x1: Math.min(to, scale.widthCss) }, lineX, texts, measure);
  const step = stepFor(scale.cssPerMin, HOUR_APART_CSS);
  const nowX = snap(nowMin);
  const now =
    nowX < 0 || nowX > scale.widthCss ? null : { x: nowX, label: nowTag(nowX, nowLabel, scale.widthCss, measure) };
  const presence: AxisLayout['presence'][number][] = [];
  eachWithin(model.presence, span, (band) => {
    const attended = band.people.length > 0;
    const words = attended ? [band.people.join(', ')] : ['nobody here', 'nobody'];
    const [x0, x1] = [snap(band.start), snap(band.end)];
    presence.push({ x0, x1, attended, label: written(x0, x1, nowX, words) });
  });
  const hours = hourTicks(model.clock, span, step).map((tick) => ({ x: snap(tick.minute), label: tick.label }));
  return {
    days: dayTicks(model.clock, span).map((day) => ({
      x: snap(day.minute),
      label: written(snap(day.minute), snap(day.end), null, [day.label, day.label.slice(0, 3)]),
    })),
    hours: hours.map((hour) => (now !== null && overlaps(hour, now.label, measure) ? { ...hour, label: '' } : hour)),
    presence,
    now,
  };
}

/** Kept on screen beside the line it names. */
function nowTag(x: number, text: string, widthCss: number, measure: Measure): Label {
  const width = measure(text) + 2 * TEXT_PAD;
  return { text, x: Math.min(Math.max(x - width / 2, 0), Math.max(0, widthCss - width)) };
}

/** The tag of "now" is written over the hours: one it would cover in part goes unwritten. */
function overlaps(hour: { readonly x: number; readonly label: string }, tag: Label, measure: Measure): boolean {
  const width = measure(hour.label) + TEXT_PAD;
  return hour.x + width > tag.x && hour.x < tag.x + measure(tag.text) + 2 * TEXT_PAD;
}
