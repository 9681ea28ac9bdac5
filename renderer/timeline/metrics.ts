import type { Row } from './rows/row';
import { firstAbove } from './track';

/** Heights of what is drawn, in page pixels. */
export interface Metrics {
  /** A row of one lane. */
  readonly row: number;
}

/** Where each row lies from the top of all of them, in page pixels. */
export interface RowPlaces {
  readonly tops: readonly number[];
  readonly heights: readonly number[];
  /** Where each row ends, for finding rows by height. */
  readonly bottoms: readonly number[];
  readonly total: number;
}

export const AXIS_CSS = 64;
export const HEADING_CSS = 28;
/** Under the bars: the points at which a hand is needed. */
export const HANDS_CSS = 10;
/** Room a lock's sign takes at the left end of a bar. */
export const LOCK_CSS = 16;
const BAR_TOP = 5;
const SLIM_CSS = 34;
const LINE_CSS = 30;
const ROW = { least: 46, most: 92 };
/** Each further lane, with the line of ground between two. */
const LANE_CSS = 26;
const LANE_GAP = 2;

/** Rows fill the height there is, between a least height for reading and a most beyond which they only look empty. */
export function metricsFor(heightCss: number, rows: readonly Row[]): Metrics {
  const sole = { row: 0 };
  const taken = rows.reduce((sum, row) => sum + headingOf(row) + heightOf(row, sole), 0);
  const bars = rows.filter((row) => row.size === 'bar').length;
  return { row: Math.floor(Math.min(ROW.most, Math.max(ROW.least, (heightCss - taken) / Math.max(bars, 1)))) };
}

/** Puts the rows one beneath the other. */
export function placeRows(rows: readonly Row[], metrics: Metrics): RowPlaces {
  const tops: number[] = [];
  const heights = rows.map((row) => heightOf(row, metrics));
  const bottoms: number[] = [];
  let y = 0;
  for (const [i, row] of rows.entries()) {
    y += headingOf(row);
    tops.push(y);
    y += heights[i]!;
    bottoms.push(y);
  }
  return { tops, heights, bottoms, total: y };
}

function heightOf(row: Row, metrics: Metrics): number {
  if (row.size === 'slim') return SLIM_CSS;
  if (row.size === 'line') return LINE_CSS;
  return metrics.row + (row.lanes - 1) * LANE_CSS;
}

function headingOf(row: Row): number {
  return row.heading === null ? 0 : HEADING_CSS;
}

/** The row at a height, or null beside all of them. */
export function rowAt(places: RowPlaces, y: number): number | null {
  const row = firstAbove(places.bottoms, y);
  return row < places.tops.length && y >= places.tops[row]! ? row : null;
}

/** Top and bottom of a lane's bars within a row that begins at `top`. */
export function laneOf(row: Row, top: number, height: number, lane: number): { y0: number; y1: number } {
  const bars = height - HANDS_CSS - 14;
  const each = Math.floor((bars - (row.lanes - 1) * LANE_GAP) / row.lanes);
  const y0 = top + BAR_TOP + lane * (each + LANE_GAP);
  return { y0, y1: y0 + each };
}

/** Top and bottom of the signs under the bars. */
export function handsOf(top: number, height: number): { y0: number; y1: number } {
  return { y0: top + height - HANDS_CSS - 6, y1: top + height - 6 };
}
