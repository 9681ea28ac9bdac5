import type { GhostBox } from '../drag/ghost';
import type { Overlay } from '../overlay';
import { type Brush, barFont, clear, fill, fillPattern, outline, smallFont, text } from './brush';

/** What lies over the bars. */
export function paintOverlay(brush: Brush, overlay: Overlay): void {
  const { ctx, palette } = brush;
  clear(brush);
  ctx.globalAlpha = 0.72;
  ctx.fillStyle = palette.panel;
  for (const row of overlay.dimmed) fill(ctx, row);
  ctx.globalAlpha = 1;
  ctx.fillStyle = palette.ink;
  ctx.fillRect(overlay.nowX, 0, 1.5, brush.heightCss);
  if (overlay.due !== null) paintDue(brush, overlay.due);
  for (const box of overlay.kin) outline(ctx, box, palette.ink, 1.5, 0);
  for (const box of overlay.hovered) outline(ctx, box, palette.ink, 1, 1);
  for (const box of overlay.selected) {
    outline(ctx, box, palette.panel, 1.5, 0.5);
    outline(ctx, box, palette.focus, 2.5, 2);
  }
  if (overlay.ghost !== null) paintGhost(brush, overlay.ghost);
}

/** A frame of its own for each verdict: dashed while nobody knows, whole if it can be, hatched and crossed if not. */
function paintGhost(brush: Brush, ghost: GhostBox): void {
  const { ctx, palette, patterns } = brush;
  if (ghost.origin !== null) {
    ctx.globalAlpha = 0.6;
    ctx.fillStyle = palette.panel;
    fill(ctx, ghost.origin);
  }
  ctx.globalAlpha = 0.9;
  ctx.fillStyle = palette.bars[ghost.kind];
  fill(ctx, ghost);
  ctx.globalAlpha = 1;
  const refused = ghost.verdict === 'refused';
  if (refused) fillPattern(ctx, ghost, patterns.clash);
  if (ghost.verdict === 'open') ctx.setLineDash([5, 4]);
  outline(ctx, ghost, refused ? palette.bad : palette.ink, 2, 1);
  ctx.setLineDash([2, 3]);
  if (ghost.placed !== null) outline(ctx, ghost.placed, palette.ink, 2, -2);
  ctx.setLineDash([]);
  if (refused || ghost.label === null) return;
  ctx.font = barFont(palette);
  ctx.fillStyle = palette.barInk;
  text(ctx, ghost.label, ghost);
}

function paintDue(brush: Brush, due: NonNullable<Overlay['due']>): void {
  const { ctx, palette } = brush;
  ctx.strokeStyle = palette.ink;
  ctx.lineWidth = 1.5;
  ctx.setLineDash([5, 4]);
  ctx.beginPath();
  ctx.moveTo(due.x, 0);
  ctx.lineTo(due.x, brush.heightCss);
  ctx.stroke();
  ctx.setLineDash([]);
  ctx.font = smallFont(palette);
  const width = ctx.measureText(due.text).width + 10;
  // On the side that has room for it.
  const x = due.x + width > brush.widthCss ? due.x - width : due.x + 1;
  ctx.fillStyle = palette.panel;
  ctx.fillRect(x, brush.heightCss - 20, width, 18);
  ctx.fillStyle = palette.ink;
  ctx.textBaseline = 'middle';
  ctx.fillText(due.text, x + 5, brush.heightCss - 11);
}
