import type { CurveBox } from '../curve';
import type { Layout, WasBox } from '../layout';
import { type Brush, fill, knockedOut } from './brush';

/** The time on the pallet, as a frame in which the cut stands. */
export function paintStays({ ctx, palette }: Brush, { stays }: Layout): void {
  for (const stay of stays) {
    ctx.globalAlpha = 0.35;
    ctx.fillStyle = palette.bars[stay.kind];
    fill(ctx, stay);
    ctx.globalAlpha = 1;
    ctx.strokeStyle = palette.lineStrong;
    ctx.lineWidth = 1;
    ctx.strokeRect(stay.x0 + 0.5, stay.y0 + 0.5, Math.max(0, stay.x1 - stay.x0 - 1), stay.y1 - stay.y0 - 1);
  }
}

/** When the row's job is due: a flag, filled if it is late. */
export function paintDues({ ctx, palette }: Brush, { dues }: Layout): void {
  for (const { x0, y0, y1, late } of dues) {
    ctx.fillStyle = late ? palette.bad : palette.ink;
    ctx.strokeStyle = ctx.fillStyle;
    ctx.fillRect(x0, y0 + 2, 1.5, y1 - y0 - 3);
    ctx.lineWidth = 1.5;
    ctx.beginPath();
    ctx.moveTo(x0, y0 + 2.75);
    ctx.lineTo(x0 + 9, y0 + 6.5);
    ctx.lineTo(x0, y0 + 10.25);
    ctx.closePath();
    ctx.stroke();
    if (late) ctx.fill();
  }
}

/** Where runs were in another plan: a broken frame, and an arrow to where the run is now. */
export function paintWere({ ctx, palette }: Brush, were: readonly WasBox[]): void {
  ctx.strokeStyle = palette.inkSoft;
  ctx.fillStyle = palette.inkSoft;
  ctx.lineWidth = 1.5;
  for (const { x0, x1, y0, y1, toX } of were) {
    ctx.setLineDash([4, 3]);
    ctx.strokeRect(x0 + 0.75, y0 - 1.25, Math.max(x1 - x0 - 1.5, 1), y1 - y0 + 2.5);
    ctx.setLineDash([]);
    if (toX !== null) paintArrow(ctx, x0, toX, y1 + 1.5);
  }
}

function paintArrow(ctx: CanvasRenderingContext2D, from: number, to: number, y: number): void {
  const back = to > from ? -5 : 5;
  ctx.fillRect(from - 1.5, y - 1.5, 3, 3);
  ctx.fillRect(Math.min(from, to), y - 0.5, Math.abs(to - from), 1);
  ctx.beginPath();
  ctx.moveTo(to, y);
  ctx.lineTo(to + back, y - 3);
  ctx.lineTo(to + back, y + 3);
  ctx.fill();
}

/** What is left of a tool: a line over its ground, a stroke across at each replacement, the rest in figures at the right. */
export function paintCurve(brush: Brush, curve: CurveBox): void {
  const { ctx, palette } = brush;
  const [first] = curve.line;
  ctx.fillStyle = palette.lineStrong;
  ctx.fillRect(0, curve.zeroY, brush.widthCss, 1);
  if (first !== undefined) {
    ctx.beginPath();
    ctx.moveTo(first.x, first.y);
    for (const { x, y } of curve.line) ctx.lineTo(x, y);
    ctx.strokeStyle = curve.short ? palette.bad : palette.ink;
    ctx.lineWidth = curve.short ? 2 : 1.25;
    ctx.stroke();
  }
  ctx.fillStyle = palette.ink;
  for (const x of curve.replaced) {
    ctx.fillRect(x - 0.5, curve.y0 - 2, 1.5, curve.y1 - curve.y0 + 2);
    ctx.fillRect(x - 3, curve.y0 - 2, 6.5, 3);
  }
  knockedOut(brush, curve.label, curve);
}
