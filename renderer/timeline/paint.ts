import type { IdleReason } from '../../core/contract';
import type { AxisLayout } from './axis-layout';
import type { Label } from './label';
import type { Box, GapBox, Layout, MarkBox } from './layout';
import type { MachineKind } from './model';
import type { Palette } from './palette';
import type { PatternName, Patterns } from './patterns';

/** Paints what the layout decided, colour by colour. */
export interface Brush {
  readonly ctx: CanvasRenderingContext2D;
  readonly palette: Palette;
  readonly patterns: Patterns;
  readonly widthCss: number;
  readonly heightCss: number;
}

const GAP_PATTERNS: Readonly<Record<IdleReason, PatternName | null>> = {
  dry: 'dots',
  hand: 'diagonal',
  off: 'cross',
  'nothing-due': null,
};

export function barFont(palette: Palette): string {
  return `500 12px ${palette.font}`;
}

export function smallFont(palette: Palette): string {
  return `12px ${palette.font}`;
}

export function paintBars(brush: Brush, layout: Layout, axis: AxisLayout): void {
  const { ctx, palette } = brush;
  ctx.clearRect(0, 0, brush.widthCss, brush.heightCss);
  paintGround(brush, layout, axis);
  for (const gap of layout.gaps) paintGap(brush, gap);
  for (const kind of ['mill', 'grind', 'mill-grind', 'bench'] as const) paintKind(brush, layout, kind);
  for (const care of layout.cares) paintCare(ctx, care, palette);
  paintHolds(brush, layout.holds);
  paintSpreads(brush, layout.spreads);
  paintLate(brush, layout);
  ctx.font = barFont(palette);
  ctx.fillStyle = palette.barInk;
  for (const run of layout.runs) if (run.label !== null) text(ctx, run.label, run);
  paintPresence(brush, layout);
  for (const mark of layout.marks) paintMark(ctx, mark, palette);
}

function paintGround(brush: Brush, layout: Layout, axis: AxisLayout): void {
  const { ctx, palette } = brush;
  for (const ground of layout.grounds) {
    ctx.fillStyle = ground.attended ? palette.attended : palette.unattended;
    fill(ctx, ground);
  }
  ctx.fillStyle = palette.line;
  for (const hour of axis.hours) ctx.fillRect(hour.x, 0, 1, brush.heightCss);
  for (const y of layout.rules) ctx.fillRect(0, y, brush.widthCss, 1);
  ctx.fillStyle = palette.lineStrong;
  for (const day of axis.days) ctx.fillRect(day.x, 0, 1, brush.heightCss);
}

function paintGap(brush: Brush, gap: GapBox): void {
  const { ctx, palette, patterns } = brush;
  const name = GAP_PATTERNS[gap.reason];
  if (name === null) return;
  fillPattern(ctx, gap, patterns[name]);
  ctx.strokeStyle = palette.line;
  ctx.lineWidth = 1;
  ctx.strokeRect(gap.x0 + 0.5, gap.y0 + 0.5, Math.max(0, gap.x1 - gap.x0 - 1), gap.y1 - gap.y0 - 1);
  if (gap.label !== null) knockedOut(brush, gap.label, gap);
}

/** A label on a pattern gets a plain ground of its own, or it could not be read. */
function knockedOut(brush: Brush, label: Label, box: Box): void {
  const { ctx, palette } = brush;
  ctx.font = smallFont(palette);
  const width = ctx.measureText(label.text).width;
  const middle = (box.y0 + box.y1) / 2;
  ctx.fillStyle = palette.panel;
  ctx.fillRect(label.x - 3, middle - 9, width + 6, 18);
  ctx.fillStyle = palette.inkSoft;
  text(ctx, label, box);
}

function paintKind(brush: Brush, layout: Layout, kind: MachineKind): void {
  const { ctx, palette } = brush;
  ctx.fillStyle = palette.bars[kind];
  for (const run of layout.runs) if (run.kind === kind) fill(ctx, run);
  // Runs that touch would read as one: a hairline of ground at each beginning parts them.
  ctx.fillStyle = palette.panel;
  for (const run of layout.runs) {
    if (run.kind === kind && run.x1 - run.x0 > 3) ctx.fillRect(run.x0, run.y0, 1, run.y1 - run.y0);
  }
  paintTables(brush, layout, kind);
}

/** Hands on the table: the run's, but not cutting, so only half as high as the bar and standing on its foot. */
function paintTables(brush: Brush, layout: Layout, kind: MachineKind): void {
  const { ctx, palette } = brush;
  const tables = layout.tables.filter((table) => table.kind === kind);
  ctx.fillStyle = palette.bars[kind];
  for (const table of tables) {
    const half = (table.y1 - table.y0) / 2;
    ctx.fillRect(table.x0, table.y1 - half, table.x1 - table.x0, half);
  }
  ctx.fillStyle = palette.panel;
  for (const table of tables) ctx.fillRect(table.x0, table.y0, 1, table.y1 - table.y0);
}

function paintHolds(brush: Brush, holds: readonly Box[]): void {
  const { ctx, palette, patterns } = brush;
  ctx.globalAlpha = 0.55;
  for (const hold of holds) fillPattern(ctx, hold, patterns.hold);
  ctx.globalAlpha = 1;
  ctx.fillStyle = palette.barInk;
  for (const hold of holds) ctx.fillRect(hold.x0, hold.y0, 1, hold.y1 - hold.y0);
}

/** Tools: a frame with a bar in the middle, as wide as the time it takes. */
function paintCare(ctx: CanvasRenderingContext2D, { x0, x1, y0, y1 }: Box, palette: Palette): void {
  ctx.fillStyle = palette.panel;
  ctx.fillRect(x0, y0, x1 - x0, y1 - y0);
  ctx.strokeStyle = palette.ink;
  ctx.lineWidth = 1.5;
  ctx.strokeRect(x0 + 0.75, y0 + 0.75, Math.max(x1 - x0 - 2.5, 1), y1 - y0 - 1.5);
  ctx.fillStyle = palette.ink;
  ctx.fillRect(x0, (y0 + y1) / 2 - 1, x1 - x0 - 1, 2);
}

/** From the soonest to the latest end: a thin line across the end of the bar. */
function paintSpreads({ ctx, palette }: Brush, spreads: readonly Box[]): void {
  ctx.fillStyle = palette.ink;
  for (const { x0, x1, y0, y1 } of spreads) {
    if (x1 - x0 < 3) continue;
    const middle = Math.round((y0 + y1) / 2) + 6;
    ctx.fillRect(x0, middle, x1 - x0, 1);
    ctx.fillRect(x0, middle - 2, 1, 5);
    ctx.fillRect(x1 - 1, middle - 2, 1, 5);
  }
}

/** A broken edge on top: seen without colour and at any width. */
function paintLate(brush: Brush, layout: Layout): void {
  const { ctx, palette } = brush;
  const late = layout.runs.filter((run) => run.late);
  ctx.fillStyle = palette.bad;
  for (const run of late) ctx.fillRect(run.x0, run.y0 - 1, run.x1 - run.x0, 4);
  ctx.fillStyle = palette.panel;
  for (const run of late) {
    for (let x = run.x0 + 7; x < run.x1; x += 10) ctx.fillRect(x, run.y0 - 1, Math.min(3, run.x1 - x), 4);
  }
}

function paintPresence(brush: Brush, layout: Layout): void {
  const { ctx, palette, patterns } = brush;
  ctx.lineWidth = 1;
  for (const box of layout.present) {
    ctx.fillStyle = palette.raised;
    fill(ctx, box);
    ctx.strokeStyle = palette.lineStrong;
    ctx.strokeRect(box.x0 + 0.5, box.y0 + 0.5, Math.max(0, box.x1 - box.x0 - 1), box.y1 - box.y0 - 1);
  }
  for (const box of layout.breaks) {
    fillPattern(ctx, box, patterns.vertical);
    if (box.label !== null) knockedOut(brush, box.label, box);
  }
}

/** Load is a solid block, unload a hollow one, a check a diamond, work by hand a solid bar. */
function paintMark(ctx: CanvasRenderingContext2D, mark: MarkBox, palette: Palette): void {
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

export function fill(ctx: CanvasRenderingContext2D, box: Box): void {
  ctx.fillRect(box.x0, box.y0, box.x1 - box.x0, box.y1 - box.y0);
}

/** The pattern begins at the box, so that it travels with it when the view moves. */
function fillPattern(ctx: CanvasRenderingContext2D, box: Box, pattern: CanvasPattern | null): void {
  if (pattern === null) return;
  ctx.save();
  ctx.translate(box.x0, box.y0);
  ctx.fillStyle = pattern;
  ctx.fillRect(0, 0, box.x1 - box.x0, box.y1 - box.y0);
  ctx.restore();
}

function text(ctx: CanvasRenderingContext2D, label: Label, box: Box): void {
  ctx.textBaseline = 'middle';
  ctx.fillText(label.text, label.x, (box.y0 + box.y1) / 2 + 1);
}
