import type { AxisLayout } from '../axis-layout';
import { AXIS_CSS } from '../metrics';
import { type Brush, smallFont } from './brush';

const DAY_BASE = 12;
const HOUR_BASE = 32;
const BAND_TOP = 42;

/** Paints the axis: days over times of day over who is in the shop. */
export function paintAxis(brush: Brush, axis: AxisLayout): void {
  const { ctx, palette } = brush;
  ctx.clearRect(0, 0, brush.widthCss, AXIS_CSS);
  ctx.fillStyle = palette.panel;
  ctx.fillRect(0, 0, brush.widthCss, AXIS_CSS);
  ctx.textBaseline = 'middle';
  ctx.font = `600 12px ${palette.font}`;
  ctx.fillStyle = palette.ink;
  for (const day of axis.days) if (day.label !== null) ctx.fillText(day.label.text, day.label.x, DAY_BASE);
  ctx.font = smallFont(palette);
  ctx.fillStyle = palette.inkSoft;
  for (const hour of axis.hours) ctx.fillText(hour.label, hour.x + 4, HOUR_BASE);
  paintBand(brush, axis);
  ctx.fillStyle = palette.line;
  for (const hour of axis.hours) ctx.fillRect(hour.x, HOUR_BASE - 8, 1, BAND_TOP - HOUR_BASE + 8);
  ctx.fillStyle = palette.lineStrong;
  for (const day of axis.days) ctx.fillRect(day.x, 0, 1, BAND_TOP);
  ctx.fillRect(0, AXIS_CSS - 1, brush.widthCss, 1);
  paintNow(brush, axis);
}

function paintBand(brush: Brush, axis: AxisLayout): void {
  const { ctx, palette } = brush;
  for (const band of axis.presence) {
    ctx.fillStyle = band.attended ? palette.attended : palette.unattended;
    ctx.fillRect(band.x0, BAND_TOP, band.x1 - band.x0, AXIS_CSS - BAND_TOP);
  }
  ctx.fillStyle = palette.inkSoft;
  for (const band of axis.presence) {
    if (band.label !== null) ctx.fillText(band.label.text, band.label.x, (BAND_TOP + AXIS_CSS) / 2);
  }
  ctx.fillStyle = palette.line;
  ctx.fillRect(0, BAND_TOP, brush.widthCss, 1);
  ctx.fillStyle = palette.lineStrong;
  for (const band of axis.presence) ctx.fillRect(band.x0, BAND_TOP, 1, AXIS_CSS - BAND_TOP);
}

function paintNow(brush: Brush, axis: AxisLayout): void {
  const { ctx, palette } = brush;
  if (axis.now === null) return;
  ctx.font = `600 12px ${palette.font}`;
  const width = ctx.measureText(axis.now.label.text).width + 12;
  ctx.fillStyle = palette.ink;
  ctx.fillRect(axis.now.label.x, HOUR_BASE - 9, width, 18);
  ctx.fillRect(axis.now.x, HOUR_BASE, 1.5, AXIS_CSS);
  ctx.fillStyle = palette.panel;
  ctx.fillText(axis.now.label.text, axis.now.label.x + 6, HOUR_BASE);
}
