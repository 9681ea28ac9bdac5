import type { IdleReason } from '../../../core/contract';
import type { GapBox, HandBox, Layout, MarkBox } from '../layout';
import type { Box } from '../placer';
import type { MachineKind } from '../rows/row';
import { type Brush, barFont, clear, fill, fillPattern, knockedOut, smallFont, text } from './brush';
import { paintLock } from './lock';
import type { Palette } from './palette';
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

/** An attendance as a bar: its sign at the left end, its words beside it. */
function paintHand({ ctx, palette }: Brush, hand: HandBox): void {
  const middle = (hand.y0 + hand.y1) / 2;
  if (hand.label === null) {
    paintMark(ctx, { ...hand, y0: middle - 7, y1: middle + 7 }, palette);
    return;
  }
  ctx.fillStyle = palette.panel;
  fill(ctx, hand);
  ctx.strokeStyle = palette.ink;
  ctx.lineWidth = 1;
  ctx.strokeRect(hand.x0 + 0.5, hand.y0 + 0.5, hand.x1 - hand.x0 - 2, hand.y1 - hand.y0 - 1);
  ctx.font = smallFont(palette);
  ctx.fillStyle = palette.ink;
  text(ctx, hand.label, hand);
}

/** The time on the pallet, as a frame in which the cut stands. */
function paintStays({ ctx, palette }: Brush, { stays }: Layout): void {
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
function paintDues({ ctx, palette }: Brush, { dues }: Layout): void {
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
