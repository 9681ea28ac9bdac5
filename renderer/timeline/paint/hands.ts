import type { HandBox, MarkBox } from '../layout';
import type { Box } from '../placer';
import { type Brush, fill, halo, smallFont, text } from './brush';
import type { Palette } from './palette';

/** Tools: a frame with a bar in the middle, as wide as the time it takes. */
export function paintCare(ctx: CanvasRenderingContext2D, { x0, x1, y0, y1 }: Box, palette: Palette): void {
  ctx.fillStyle = palette.panel;
  ctx.fillRect(x0, y0, x1 - x0, y1 - y0);
  ctx.strokeStyle = palette.ink;
  ctx.lineWidth = 1.5;
  ctx.strokeRect(x0 + 0.75, y0 + 0.75, Math.max(x1 - x0 - 2.5, 1), y1 - y0 - 1.5);
  ctx.fillStyle = palette.ink;
  ctx.fillRect(x0, (y0 + y1) / 2 - 1, x1 - x0 - 1, 2);
}

/** Load is a solid block, unload a hollow one, a check a diamond, work by hand a solid bar. */
export function paintMark(ctx: CanvasRenderingContext2D, mark: MarkBox, palette: Palette): void {
  const [width, height] = [mark.x1 - mark.x0, mark.y1 - mark.y0];
  ctx.fillStyle = palette.ink;
  if (mark.role === 'care') {
    paintCare(ctx, mark, palette);
  } else if (mark.role === 'load' || mark.role === 'work') {
    ctx.fillRect(mark.x0, mark.y0, width - 1, height);
  } else if (mark.role === 'unload') {
    ctx.fillStyle = palette.panel;
    ctx.fillRect(mark.x0, mark.y0, width - 1, height);
    ctx.strokeStyle = palette.ink;
    ctx.lineWidth = 1.5;
    ctx.strokeRect(mark.x0 + 0.75, mark.y0 + 0.75, Math.max(width - 2.5, 1), height - 1.5);
  } else {
    const [x, y, half] = [(mark.x0 + mark.x1) / 2, (mark.y0 + mark.y1) / 2, height / 2];
    const reach = Math.max(half, Math.min(width / 2, height));
    ctx.beginPath();
    ctx.moveTo(x - reach, y);
    ctx.lineTo(x, y - half);
    ctx.lineTo(x + reach, y);
    ctx.lineTo(x, y + half);
    ctx.fill();
  }
}

/** An attendance with its words: in the bar where they fit, or beside its sign. */
export function paintHand({ ctx, palette }: Brush, hand: HandBox): void {
  ctx.font = smallFont(palette);
  if (hand.isInside) {
    ctx.fillStyle = palette.panel;
    fill(ctx, hand);
    ctx.strokeStyle = palette.ink;
    ctx.lineWidth = 1;
    ctx.strokeRect(hand.x0 + 0.5, hand.y0 + 0.5, hand.x1 - hand.x0 - 2, hand.y1 - hand.y0 - 1);
  } else {
    const middle = (hand.y0 + hand.y1) / 2;
    paintMark(ctx, { ...hand, y0: middle - 7, y1: middle + 7 }, palette);
  }
  if (hand.label === null) return;
  if (!hand.isInside) halo(ctx, hand.label, hand, palette.raised);
  ctx.fillStyle = palette.ink;
  text(ctx, hand.label, hand);
}
