import type { Label } from '../label';
import type { Box } from '../placer';
import type { Palette } from './palette';
import type { Patterns } from './patterns';

/** What is painted with: one canvas, the look's colours and the ways to fill. */
export interface Brush {
  readonly ctx: CanvasRenderingContext2D;
  readonly palette: Palette;
  readonly patterns: Patterns;
  readonly widthCss: number;
  readonly heightCss: number;
}

export function barFont(palette: Palette): string {
  return `500 12px ${palette.font}`;
}

export function smallFont(palette: Palette): string {
  return `12px ${palette.font}`;
}

export function clear({ ctx, widthCss, heightCss }: Brush): void {
  ctx.clearRect(0, 0, widthCss, heightCss);
}

export function fill(ctx: CanvasRenderingContext2D, box: Box): void {
  ctx.fillRect(box.x0, box.y0, box.x1 - box.x0, box.y1 - box.y0);
}

/** The pattern begins at the box, so that it travels with it when the view moves. */
export function fillPattern(ctx: CanvasRenderingContext2D, box: Box, pattern: CanvasPattern | null): void {
  if (pattern === null) return;
  ctx.save();
  ctx.translate(box.x0, box.y0);
  ctx.fillStyle = pattern;
  ctx.fillRect(0, 0, box.x1 - box.x0, box.y1 - box.y0);
  ctx.restore();
}

export function text(ctx: CanvasRenderingContext2D, label: Label, box: Pick<Box, 'y0' | 'y1'>): void {
  ctx.textBaseline = 'middle';
  ctx.fillText(label.text, label.x, (box.y0 + box.y1) / 2 + 1);
}

/** Around words that may lie on lines or a pattern. */
export function halo(ctx: CanvasRenderingContext2D, label: Label, box: Pick<Box, 'y0' | 'y1'>, colour: string): void {
  ctx.strokeStyle = colour;
  ctx.lineWidth = 4;
  ctx.lineJoin = 'round';
  ctx.textBaseline = 'middle';
  ctx.strokeText(label.text, label.x, (box.y0 + box.y1) / 2 + 1);
}

/** A label on a pattern gets a plain ground of its own, or it could not be read. */
export function knockedOut({ ctx, palette }: Brush, label: Label, box: Pick<Box, 'y0' | 'y1'>): void {
  ctx.font = smallFont(palette);
  const width = ctx.measureText(label.text).width;
  const middle = (box.y0 + box.y1) / 2;
  ctx.fillStyle = palette.panel;
  ctx.fillRect(label.x - 3, middle - 9, width + 6, 18);
  ctx.fillStyle = palette.inkSoft;
  text(ctx, label, box);
}

export function outline(ctx: CanvasRenderingContext2D, box: Box, colour: string, width: number, out: number): void {
  ctx.strokeStyle = colour;
  ctx.lineWidth = width;
  ctx.strokeRect(box.x0 - out, box.y0 - out, box.x1 - box.x0 + 2 * out, box.y1 - box.y0 + 2 * out);
}
