import type { CSSProperties } from 'react';

const AWAY_CSS = 16;

/** Where a note of this width stands beside a point of the window: on the side with room for it, never under a hand. */
export function besidePoint(x: number, y: number, widthCss: number): CSSProperties {
  const fitsRight = x + AWAY_CSS + widthCss <= window.innerWidth;
  const left = fitsRight ? x + AWAY_CSS : Math.max(0, x - AWAY_CSS - widthCss);
  const below = y < window.innerHeight / 2;
  const upright = below ? { top: y + AWAY_CSS } : { bottom: window.innerHeight - y + AWAY_CSS };
  return { left, width: widthCss, ...upright };
}
