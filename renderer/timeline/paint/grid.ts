import type { AxisLayout } from '../axis-layout';
import type { Layout } from '../layout';
import { type Brush, clear, fill } from './brush';

/** What lies beneath the bars: attended and unattended time, the lines of rows, hours and days. */
export function paintGrid(brush: Brush, layout: Layout, axis: AxisLayout): void {
  const { ctx, palette } = brush;
  clear(brush);
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
