import { type Clock, dayText, type Interval, type Minute } from '../../../core/time';
import { type Brush, clear } from '../paint/brush';
import { dayTicks } from '../ticks';
import { columnsOf, type StripModel } from './strip-model';

export const STRIP_CSS = 46;
/** Above it the days are written. */
const AREA_TOP = 18;
/** `Wed 25`, or `Wed` where there is less room. */
const DAY_CSS = { long: 46, short: 27 };

/** Paints the whole plan: it changes with the plan and the size of the window, not with what is shown. */
export function paintStrip(brush: Brush, strip: StripModel, clock: Clock, limits: Interval, nowMin: Minute): void {
  const { ctx, palette, widthCss } = brush;
  const toX = (minute: Minute): number => ((minute - limits.start) / (limits.end - limits.start)) * widthCss;
  clear(brush);
  ctx.fillStyle = palette.attended;
  ctx.fillRect(0, AREA_TOP, widthCss, STRIP_CSS - AREA_TOP);
  ctx.fillStyle = palette.unattended;
  for (const { start, end } of strip.unattended) {
    ctx.fillRect(toX(start), AREA_TOP, toX(end) - toX(start), STRIP_CSS - AREA_TOP);
  }
  paintArea(brush, strip, limits);
  ctx.font = `11px ${palette.font}`;
  ctx.textBaseline = 'middle';
  for (const { minute, end } of dayTicks(clock, limits)) {
    const x = Math.round(toX(minute));
    ctx.fillStyle = palette.lineStrong;
    ctx.fillRect(x, AREA_TOP - 8, 1, STRIP_CSS);
    ctx.fillStyle = palette.inkSoft;
    const from = Math.max(x, 0);
    const room = toX(end) - from;
    const day = dayText(clock, minute).split(' ');
    if (room >= DAY_CSS.short) ctx.fillText(day.slice(0, room >= DAY_CSS.long ? 2 : 1).join(' '), from + 4, 9);
  }
  paintLate(brush, strip, toX);
  ctx.fillStyle = palette.ink;
  ctx.fillRect(toX(nowMin), AREA_TOP - 4, 1.5, STRIP_CSS);
}

/** One column for each pixel, as high as the share of machines that cut. */
function paintArea({ ctx, palette, widthCss }: Brush, strip: StripModel, limits: Interval): void {
  const columns = columnsOf(strip, limits, Math.max(1, Math.floor(widthCss)));
  const height = STRIP_CSS - AREA_TOP - 6;
  ctx.fillStyle = palette.inkFaint;
  for (const [x, cutting] of columns.entries()) {
    if (cutting === 0) continue;
    const high = Math.max(1, (cutting / Math.max(strip.machines, 1)) * height);
    ctx.fillRect(x, STRIP_CSS - high, 1, high);
  }
}

/** A broken line above it, as on the bars. */
function paintLate({ ctx, palette }: Brush, strip: StripModel, toX: (minute: Minute) => number): void {
  ctx.fillStyle = palette.bad;
  for (const { start, end } of strip.late) {
    const last = Math.max(toX(end), toX(start) + 3);
    for (let x = toX(start); x < last; x += 6) ctx.fillRect(x, AREA_TOP, Math.min(4, last - x), 3);
  }
}
