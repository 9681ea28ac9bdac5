import type { Minute } from '../../../core/time';
import { metricsFor, placeRows } from '../../../renderer/timeline/metrics';
import type { TimelineModel } from '../../../renderer/timeline/model';
import type { View } from '../../../renderer/timeline/placer';
import type { Row } from '../../../renderer/timeline/rows/row';
import { fitTo } from '../../../renderer/timeline/scale';
import { at } from '../support/plan-view';

/** Every letter as wide as every other. */
export const measure = (text: string): number => text.length * 7;

interface Sight {
  readonly widthCss?: number;
  readonly heightCss?: number;
  readonly topCss?: number;
  readonly dpr?: number;
  readonly nowMin?: Minute;
}

/** A view of the time between two minutes, all rows in sight. */
export function viewOf(model: TimelineModel, from: Minute, to: Minute, sight: Sight = {}): View {
  const places = placeRows(model.rows, metricsFor(500, model.rows));
  const { widthCss = 1000, heightCss = places.total, topCss = 0, dpr = 1, nowMin = at(0, '13:00') } = sight;
  return { scale: fitTo({ start: from, end: to }, widthCss), nowMin, places, topCss, heightCss, dpr };
}

export function withRows(model: TimelineModel, rows: readonly Row[]): TimelineModel {
  return { ...model, rows };
}
