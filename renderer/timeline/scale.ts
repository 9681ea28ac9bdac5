import type { Interval, Minute } from '../../core/time';

/**
 * The one map between time and the screen. Names end in `Min` for minutes of the plan's axis, `Css` for pixels of the
 * page and `Dev` for pixels of the display; nothing else on the timeline converts between them.
 */
export interface Scale {
  /** The minute at the left edge; may lie between whole minutes while zooming. */
  readonly leftMin: Minute;
  readonly cssPerMin: number;
  readonly widthCss: number;
}

/** Below ten minutes across a screen nothing more is to be seen; beyond the limits there is no plan. */
const SHORTEST_SPAN_MIN = 10;

export function toPx(scale: Scale, minute: Minute): number {
  return (minute - scale.leftMin) * scale.cssPerMin;
}

export function toMinute(scale: Scale, css: number): Minute {
  return scale.leftMin + css / scale.cssPerMin;
}

/** The time on screen. */
export function spanOf(scale: Scale): Interval {
  return { start: scale.leftMin, end: toMinute(scale, scale.widthCss) };
}

/** The scale that shows exactly `span`. */
export function fitTo(span: Interval, widthCss: number): Scale {
  const length = Math.max(span.end - span.start, SHORTEST_SPAN_MIN);
  return { leftMin: span.start, cssPerMin: Math.max(widthCss, 1) / length, widthCss: Math.max(widthCss, 1) };
}

/** Keeps the minute under `atCss` where it is while everything else grows by `factor`. */
export function zoomAt(scale: Scale, atCss: number, factor: number, limits: Interval): Scale {
  const longest = Math.max(limits.end - limits.start, SHORTEST_SPAN_MIN);
  const span = Math.min(Math.max(scale.widthCss / (scale.cssPerMin * factor), SHORTEST_SPAN_MIN), longest);
  const cssPerMin = scale.widthCss / span;
  const leftMin = toMinute(scale, atCss) - atCss / cssPerMin;
  return within({ ...scale, cssPerMin, leftMin }, limits);
}

/** Moves the view later by `byCss` pixels of time. */
export function panBy(scale: Scale, byCss: number, limits: Interval): Scale {
  return within({ ...scale, leftMin: scale.leftMin + byCss / scale.cssPerMin }, limits);
}

/** With this much of a run on screen it is found without moving anything. */
const ENOUGH_CSS = 120;

/** The same zoom with `span` on screen, moved no more than it takes; a span that is too long is shown from its start. */
export function reveal(scale: Scale, span: Interval, limits: Interval, marginCss = 48): Scale {
  const margin = marginCss / scale.cssPerMin;
  const shown = { start: spanOf(scale).start + margin, end: spanOf(scale).end - margin };
  const visible = Math.min(span.end, shown.end) - Math.max(span.start, shown.start);
  const length = span.end - span.start;
  if (visible >= Math.min(length, ENOUGH_CSS / scale.cssPerMin)) return scale;
  const fromRight = span.end > shown.end && length <= shown.end - shown.start;
  const leftMin = fromRight ? scale.leftMin + span.end - shown.end : span.start - margin;
  return within({ ...scale, leftMin }, limits);
}

function within(scale: Scale, limits: Interval): Scale {
  const span = scale.widthCss / scale.cssPerMin;
  const last = Math.max(limits.start, limits.end - span);
  return { ...scale, leftMin: Math.min(Math.max(scale.leftMin, limits.start), last) };
}
