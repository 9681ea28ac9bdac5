import type { Box, Layout, MarkBox } from './layout';
import type { Brush } from './paint';
import { smallFont } from './paint';
import { jobOf } from './plan-index';
import { type Selection, sameSelection } from './selection';

/** What comes and goes with the pointer and the selection, decided apart from painting it. */
interface Overlay {
  readonly selected: readonly Box[];
  /** Other runs of the selected run's job. */
  readonly kin: readonly Box[];
  readonly hovered: readonly Box[];
  readonly due: { readonly x: number; readonly text: string } | null;
  readonly nowX: number | null;
}

export function overlayOf(
  layout: Layout,
  selection: Selection | null,
  hover: Selection | null,
  due: Overlay['due'],
  nowX: number | null,
): Overlay {
  const job = selection?.kind === 'run' ? jobOf(selection.run) : null;
  return {
    selected: boxesOf(layout, selection),
    kin: layout.runs.filter((box) => jobOf(box.run) === job && box.run !== (selection as { run?: string }).run),
    hovered: boxesOf(layout, hover),
    due,
    nowX,
  };
}

function boxesOf(layout: Layout, selection: Selection | null): Box[] {
  if (selection === null) return [];
  const isIt = (box: { readonly selection: Selection }): boolean => sameSelection(box.selection, selection);
  const marks: readonly MarkBox[] = layout.marks.filter(isIt);
  if (selection.kind !== 'run') return [...layout.gaps.filter(isIt), ...layout.cares.filter(isIt), ...marks];
  const own = (box: { readonly run: string }): boolean => box.run === selection.run;
  return [...layout.runs.filter(own), ...layout.tables.filter(own), ...marks];
}

export function paintOverlay(brush: Brush, overlay: Overlay): void {
  const { ctx, palette } = brush;
  ctx.clearRect(0, 0, brush.widthCss, brush.heightCss);
  if (overlay.nowX !== null) {
    ctx.fillStyle = palette.ink;
    ctx.fillRect(overlay.nowX, 0, 1.5, brush.heightCss);
  }
  if (overlay.due !== null) paintDue(brush, overlay.due);
  for (const box of overlay.kin) outline(ctx, box, palette.ink, 1.5, 0);
  for (const box of overlay.hovered) outline(ctx, box, palette.ink, 1, 1);
  for (const box of overlay.selected) {
    outline(ctx, box, palette.panel, 1.5, 0.5);
    outline(ctx, box, palette.focus, 2.5, 2);
  }
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

function outline(ctx: CanvasRenderingContext2D, box: Box, colour: string, width: number, out: number): void {
  ctx.strokeStyle = colour;
  ctx.lineWidth = width;
  ctx.strokeRect(box.x0 - out, box.y0 - out, box.x1 - box.x0 + 2 * out, box.y1 - box.y0 + 2 * out);
}
