import type { Minute } from '../../core/time';
import { type Label, TEXT_PAD } from './label';
import type { Placer } from './placer';
import type { Curve } from './rows/row';
import { firstAbove } from './track';

/** What is left of a tool over the time on screen, as a line. */
export interface CurveBox {
  readonly y0: number;
  readonly y1: number;
  /** The height of nothing left. */
  readonly zeroY: number;
  readonly line: readonly { readonly x: number; readonly y: number }[];
  readonly replaced: readonly number[];
  readonly short: boolean;
  /** What is left at the end of the plan, at the right edge. */
  readonly label: Label;
}

interface Sides {
  readonly y0: number;
  readonly y1: number;
}

export function curveBox(curve: Curve, { y0, y1 }: Sides, place: Placer): CurveBox {
  const { limit, points, ats, replaced, short, words } = curve;
  const most = Math.max(limit, 1);
  // Above the limit a new tool's whole life may be left, below nothing more than nothing: both at the edges.
  const toY = (left: number): number => y1 - (Math.min(Math.max(left, 0), most) / most) * (y1 - y0);
  const first = Math.max(0, firstAbove(ats, place.span.start) - 1);
  const last = Math.min(points.length, firstAbove(ats, place.span.end) + 1);
  const { widthCss } = place.view.scale;
  const inSight = ({ at, left }: { readonly at: Minute; readonly left: number }) => ({
    x: place.far(at),
    y: toY(left),
  });
  const line = points.slice(first, last).map(inSight);
  const end = points.at(-1);
  // Nothing changes after the last point.
  if (end !== undefined && end.at < place.span.end) line.push({ x: widthCss, y: toY(end.left) });
  return {
    ...{ y0, y1, zeroY: y1, line, short },
    replaced: replaced.filter((at) => at >= place.span.start && at < place.span.end).map((at) => place.edge(at)),
    label: { text: words, x: widthCss - TEXT_PAD - place.width(words) },
  };
}
