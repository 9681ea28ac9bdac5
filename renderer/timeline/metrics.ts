/** Heights of what is drawn, in page pixels. */
export interface Metrics {
  readonly row: number;
  readonly person: number;
  /** Between the machines and the people. */
  readonly divide: number;
  readonly bar: { readonly top: number; readonly height: number };
  /** Under the bar: the points at which a hand is needed. */
  readonly lane: { readonly top: number; readonly height: number };
}

export const AXIS_CSS = 64;
const PERSON_CSS = 34;
const DIVIDE_CSS = 28;
const LANE_CSS = 10;
const ROW = { least: 46, most: 92 };

/** Rows fill the height there is, between a least height for reading and a most beyond which they only look empty. */
export function metricsFor(heightCss: number, machines: number, people: number): Metrics {
  const free = heightCss - people * PERSON_CSS - DIVIDE_CSS;
  const row = Math.floor(Math.min(ROW.most, Math.max(ROW.least, free / Math.max(machines, 1))));
  const height = row - LANE_CSS - 14;
  return {
    row,
    person: PERSON_CSS,
    divide: DIVIDE_CSS,
    bar: { top: 5, height },
    lane: { top: 5 + height + 3, height: LANE_CSS },
  };
}

export function heightOf(metrics: Metrics, machines: number, people: number): number {
  return machines * metrics.row + metrics.divide + people * metrics.person;
}
