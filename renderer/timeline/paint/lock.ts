import type { RunBox } from '../layout';
import { LOCK_CSS } from '../metrics';
import { type Brush, fill, fillPattern } from './brush';

/** The foot of the bar that is crossed, less where the words would not leave so much. */
const BAND_CSS = 7;
const WORDS_CSS = 14;

/**
 * A padlock on a run that is locked. If the lock cannot hold, its shackle stands open and the foot of the bar is
 * crossed. On a bar too narrow for it a stud on the upper edge stands for it.
 */
export function paintLock(brush: Brush, run: RunBox): void {
  const { ctx, palette, patterns } = brush;
  const clash = run.lock === 'clash';
  if (clash) {
    const high = Math.max(2, Math.min(BAND_CSS, Math.floor((run.y1 - run.y0 - WORDS_CSS) / 2)));
    const band = { ...run, y0: run.y1 - high };
    ctx.fillStyle = palette.panel;
    fill(ctx, band);
    fillPattern(ctx, band, patterns.clash);
  }
  const colour = clash ? palette.bad : palette.barInk;
  const x = Math.max(run.x0, 0);
  ctx.fillStyle = colour;
  if (run.x1 - x < LOCK_CSS) {
    ctx.fillRect(x, run.y0, Math.min(4, run.x1 - x), 4);
    return;
  }
  const left = x + 4;
  const top = (run.y0 + run.y1) / 2 - 1;
  if (clash) {
    // The sign of a lock that cannot hold must be seen on every bar's colour.
    ctx.fillStyle = palette.panel;
    ctx.fillRect(left - 2, top - 7, 13, 15);
    ctx.fillStyle = colour;
  }
  ctx.fillRect(left, top, 9, 7);
  ctx.strokeStyle = colour;
  ctx.lineWidth = 1.5;
  ctx.beginPath();
  ctx.moveTo(left + 2, top);
  ctx.lineTo(left + 2, top - 2);
  ctx.arc(left + 4.5, top - 2, 2.5, Math.PI, clash ? Math.PI * 1.8 : 2 * Math.PI);
  if (!clash) ctx.lineTo(left + 7, top);
  ctx.stroke();
}
