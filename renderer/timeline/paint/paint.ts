import type { IdleReason } from '../../../core/contract';
import type { GapBox, Layout } from '../layout';
import type { Box } from '../placer';
import type { MachineKind } from '../rows/row';
import { paintCurve, paintDues, paintStays, paintWere } from './around';
import { type Brush, barFont, clear, fill, fillPattern, knockedOut, text } from './brush';
import { paintCare, paintHand, paintMark } from './hands';
import { paintLock } from './lock';
import type { PatternName } from './patterns';

const GAP_PATTERNS: Readonly<Record<IdleReason, PatternName | null>> = {
  dry: 'dots',
  hand: 'diagonal',
  off: 'cross',
  'nothing-due': null,
};

/** Paints what the layout decided, colour by colour. */
export function paintBars(brush: Brush, layout: Layout): void {
  const { ctx, palette } = brush;
  clear(brush);
  paintPresence(brush, layout);
  for (const gap of layout.gaps) paintGap(brush, gap);
  paintStays(brush, layout);
  for (const kind of ['mill', 'grind', 'mill-grind', 'bench'] as const) paintKind(brush, layout, kind);
  for (const care of layout.cares) paintCare(ctx, care, palette);
  paintHolds(brush, layout.holds);
  paintSpreads(brush, layout.spreads);
  paintLate(brush, layout);
  ctx.font = barFont(palette);
  ctx.fillStyle = palette.barInk;
  for (const run of layout.runs) if (run.label !== null) text(ctx, run.label, run);
  for (const run of layout.runs) if (run.lock !== null) paintLock(brush, run);
  for (const hand of layout.hands) paintHand(brush, hand);
  paintWere(brush, layout.were);
  for (const curve of layout.curves) paintCurve(brush, curve);
  paintDues(brush, layout);
  for (const mark of layout.marks) paintMark(ctx, mark, palette);
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
