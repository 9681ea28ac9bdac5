import type { Layout } from './layout';
import type { Box } from './placer';
import type { Selection } from './selection';

/** Sideways reach around narrow things, so that a pointer can hit them: half of the 24 px target size of WCAG 2.5.8. */
const REACH_CSS = 12;

/** What lies under a point of the bars' canvas, topmost first; null for ground. */
export function hitAt(layout: Layout, x: number, y: number): Selection | null {
  const mark = layout.marks.find((box) => contains(box, x, y)) ?? layout.hands.find((box) => contains(box, x, y));
  if (mark !== undefined) return mark.selection;
  const run = runAt(layout, x, y);
  if (run !== null) return { kind: 'run', run };
  const near = nearest([...layout.marks, ...layout.cares], x, y);
  if (near !== null) return near.selection;
  return layout.gaps.find((box) => contains(box, x, y))?.selection ?? null;
}

/** The run whose bar, or whose time on the table, lies under a point; null if none does. */
export function runAt(layout: Layout, x: number, y: number): string | null {
  const under = (box: Box): boolean => contains(box, x, y);
  return layout.runs.findLast(under)?.run ?? layout.tables.find(under)?.run ?? null;
}

function contains(box: Box, x: number, y: number): boolean {
  return x >= box.x0 && x < box.x1 && y >= box.y0 && y < box.y1;
}

function nearest<T extends Box>(boxes: readonly T[], x: number, y: number): T | null {
  let best: T | null = null;
  let least = REACH_CSS;
  for (const box of boxes) {
    if (y < box.y0 || y >= box.y1) continue;
    const away = Math.max(box.x0 - x, x - box.x1);
    if (away < least) [best, least] = [box, away];
  }
  return best;
}
