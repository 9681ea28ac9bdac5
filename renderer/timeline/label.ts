/** The width of a text in page pixels. */
export type Measure = (text: string) => number;

export interface Label {
  readonly text: string;
  readonly x: number;
}

export const TEXT_PAD = 6;

/**
 * The first of `texts` that fits between two edges, written at the left one; null if none does. It never crosses the
 * vertical line at `lineX`: there it is written behind the line, or before it where only that has room.
 */
export function labelBetween(
  { x0, x1 }: { readonly x0: number; readonly x1: number },
  lineX: number | null,
  texts: readonly string[],
  measure: Measure,
): Label | null {
  const label = fitting(x0, x1, texts, measure);
  const crosses = label !== null && lineX !== null && lineX > x0 && lineX < label.x + measure(label.text);
  return crosses ? (fitting(lineX, x1, texts, measure) ?? fitting(x0, lineX, texts, measure)) : label;
}

function fitting(x0: number, x1: number, texts: readonly string[], measure: Measure): Label | null {
  const text = texts.find((candidate) => measure(candidate) <= x1 - x0 - 2 * TEXT_PAD);
  return text === undefined ? null : { text, x: x0 + TEXT_PAD };
}
