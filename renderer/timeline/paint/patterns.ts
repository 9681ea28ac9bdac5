import type { Palette } from './palette';

/** Ways to fill that can be told apart without colour. */
export type PatternName = 'dots' | 'diagonal' | 'cross' | 'hold' | 'vertical' | 'clash';

const TILE_CSS = 8;

export type Patterns = Readonly<Record<PatternName, CanvasPattern | null>>;

/** Tiles drawn once for a palette and a display density, so that lines stay crisp. */
export function makePatterns(palette: Palette, dpr: number): Patterns {
  const tile = (draw: (ctx: CanvasRenderingContext2D) => void): CanvasPattern | null => {
    const canvas = document.createElement('canvas');
    const size = Math.round(TILE_CSS * dpr);
    canvas.width = size;
    canvas.height = size;
    const ctx = canvas.getContext('2d');
    if (ctx === null) return null;
    ctx.scale(size / TILE_CSS, size / TILE_CSS);
    draw(ctx);
    const pattern = ctx.createPattern(canvas, 'repeat');
    pattern?.setTransform(new DOMMatrix().scale(TILE_CSS / size));
    return pattern;
  };
  return {
    dots: tile((ctx) => {
      ctx.fillStyle = palette.lineStrong;
      ctx.fillRect(1, 1, 1.5, 1.5);
      ctx.fillRect(5, 5, 1.5, 1.5);
    }),
    diagonal: tile((ctx) => strokeDiagonals(ctx, palette.lineStrong, 1, false)),
    cross: tile((ctx) => {
      strokeDiagonals(ctx, palette.lineStrong, 0.6, false);
      strokeDiagonals(ctx, palette.lineStrong, 0.6, true);
    }),
    hold: tile((ctx) => strokeDiagonals(ctx, palette.barInk, 2.5, true)),
    clash: tile((ctx) => {
      strokeDiagonals(ctx, palette.bad, 1.5, false);
      strokeDiagonals(ctx, palette.bad, 1.5, true);
    }),
    vertical: tile((ctx) => {
      ctx.fillStyle = palette.lineStrong;
      ctx.fillRect(2, 0, 1, TILE_CSS);
      ctx.fillRect(6, 0, 1, TILE_CSS);
    }),
  };
}

function strokeDiagonals(ctx: CanvasRenderingContext2D, colour: string, width: number, falling: boolean): void {
  ctx.strokeStyle = colour;
  ctx.lineWidth = width;
  ctx.beginPath();
  for (const shift of [-TILE_CSS, 0, TILE_CSS]) {
    // Drawn past the tile's edges so that neighbouring tiles join without a notch.
    const [y0, y1] = falling ? [-2, TILE_CSS + 2] : [TILE_CSS + 2, -2];
    ctx.moveTo(shift - 2, y0);
    ctx.lineTo(shift + TILE_CSS + 2, y1);
  }
  ctx.stroke();
}
