import type { Interval } from '../../../core/time';
import { laneOf } from '../metrics';
import { itemAt, placeOf, type TimelineModel } from '../model';
import { type Box, Placer, type View } from '../placer';
import type { MachineKind } from '../rows/row';
import type { Carried, Trial } from './move';

/** `open`: nobody has said yet what would come of it. */
export type Verdict = 'open' | 'legal' | 'refused';

/** A run that is carried, as the timeline shows it. */
export interface Shown {
  readonly carried: Carried;
  readonly verdict: Verdict;
  /** Where it would come to stand. */
  readonly placed: Trial['placed'];
  /** Machines that can do it. */
  readonly able: readonly string[];
  readonly kind: MachineKind;
  /** Written on it, longest first. */
  readonly labels: readonly string[];
}

export interface GhostBox extends Box {
  readonly verdict: Verdict;
  readonly kind: MachineKind;
  readonly label: { readonly text: string; readonly x: number } | null;
  /** Where it was taken up. */
  readonly origin: Box | null;
  /** Where it would come to stand, if that is elsewhere. */
  readonly placed: Box | null;
}

/** The row in which a machine's run is carried: the machine's, or where rows are for something else the run's own. */
export function rowFor(model: TimelineModel, run: string, machine: string): number | null {
  const row = model.rows.findIndex((candidate) => candidate.machine === machine && candidate.size === 'bar');
  if (row >= 0) return row;
  return placeOf(model, { kind: 'run', run })?.row ?? null;
}

/** Where the run that is carried is drawn; null if its row is gone. */
export function ghostBox(
  model: TimelineModel,
  view: View,
  shown: Shown,
  measure: (text: string) => number,
): GhostBox | null {
  const place = new Placer(view, measure);
  const { from, fromEnd, move, end } = shown.carried;
  const across = (machine: string, span: Interval): Box | null => {
    const row = rowFor(model, move.run, machine);
    if (row === null) return null;
    const item = itemAt(model, placeOf(model, { kind: 'run', run: move.run }) ?? { row, at: -1 });
    const lane = model.rows[row]!.machine === null && item?.kind === 'run' ? item.lane : 0;
    const top = (view.places.tops[row] ?? 0) - view.topCss;
    return place.across(span, laneOf(model.rows[row]!, top, view.places.heights[row] ?? 0, lane));
  };
  const span = { start: move.start, end };
  const box = across(move.machine, span);
  if (box === null) return null;
  const { placed } = shown;
  const elsewhere = placed !== null && (placed.machine !== move.machine || placed.start !== move.start);
  return {
    ...box,
    verdict: shown.verdict,
    kind: shown.kind,
    label: place.label(span, shown.labels),
    origin: across(from.machine, { start: from.start, end: fromEnd }),
    placed: elsewhere ? across(placed.machine, placed) : null,
  };
}

/** The rows of machines that cannot do the run, to be dimmed. */
export function dimmedRows(model: TimelineModel, view: View, able: readonly string[]): Box[] {
  return model.rows.flatMap((row, i) => {
    if (row.machine === null || able.includes(row.machine)) return [];
    const y0 = (view.places.tops[i] ?? 0) - view.topCss;
    const y1 = y0 + (view.places.heights[i] ?? 0);
    return y1 < 0 || y0 > view.heightCss ? [] : [{ x0: 0, x1: view.scale.widthCss, y0, y1 }];
  });
}
