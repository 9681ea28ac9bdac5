import type { Interval, Minute } from '../../core/time';
import { type Label, labelBetween, type Measure } from './label';
import type { RowPlaces } from './metrics';
import { type Scale, spanOf, toPx } from './scale';

/** What of the timeline is on screen, and how finely the screen shows it. */
export interface View {
  readonly scale: Scale;
  readonly nowMin: Minute;
  readonly places: RowPlaces;
  /** How far the rows are scrolled, and how much of them is seen. */
  readonly topCss: number;
  readonly heightCss: number;
  readonly dpr: number;
}

/** Page pixels, edges on whole display pixels. */
export interface Box {
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
}

/** Narrower than this nothing can be written. */
const LEAST_LABEL_CSS = 20;

/** Turns minutes into places on screen. */
export class Placer {
  readonly span: Interval;
  /** One pixel of the display, in page pixels. */
  readonly hairline: number;
  private readonly nowX: number;

  constructor(
    readonly view: View,
    private readonly measure: Measure,
  ) {
    this.span = spanOf(view.scale);
    this.hairline = 1 / view.dpr;
    this.nowX = toPx(view.scale, view.nowMin);
  }

  onScreen(span: Interval): Interval {
    return { start: Math.max(span.start, this.span.start), end: Math.min(span.end, this.span.end) };
  }

  across(span: Interval, { y0, y1 }: { readonly y0: number; readonly y1: number }): Box {
    const x0 = this.edge(span.start);
    return { x0, x1: Math.max(this.edge(span.end), x0 + this.hairline), y0, y1 };
  }

  /** Whether it takes less than one pixel of the display. */
  isHair(span: Interval): boolean {
    return (span.end - span.start) * this.view.scale.cssPerMin < this.hairline;
  }

  /** The first of `texts` that fits what of the span is on screen; null if none does. */
  label(span: Interval, texts: readonly string[]): Label | null {
    const x0 = this.edge(Math.max(span.start, this.span.start));
    const x1 = this.edge(Math.min(span.end, this.span.end));
    return x1 - x0 < LEAST_LABEL_CSS ? null : labelBetween({ x0, x1 }, this.nowX, texts, this.measure);
  }

  /** Where a minute lies, however far off screen: for lines that cross the edge. */
  far(minute: Minute): number {
    return toPx(this.view.scale, minute);
  }

  /** The width of a text. */
  width(text: string): number {
    return this.measure(text);
  }

  /** Cut to a little beyond the screen, as canvases lose precision far outside it. */
  edge(minute: Minute): number {
    const { scale, dpr } = this.view;
    const css = Math.min(Math.max(toPx(scale, minute), -8), scale.widthCss + 8);
    return Math.round(css * dpr) / dpr;
  }
}
