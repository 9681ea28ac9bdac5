import type { GhostBox } from './drag/ghost';
import type { Layout } from './layout';
import type { Place } from './model';
import type { Box } from './placer';
import { jobOf } from './plan-index';
import { type Selection, sameSelection } from './selection';

/** What comes and goes with the pointer and the selection, decided apart from painting it. */
export interface Overlay {
  readonly selected: readonly Box[];
  /** Other runs of the selected run's job. */
  readonly kin: readonly Box[];
  readonly hovered: readonly Box[];
  readonly due: { readonly x: number; readonly text: string } | null;
  readonly nowX: number;
  /** Rows on which the run that is carried cannot stand. */
  readonly dimmed: readonly Box[];
  readonly ghost: GhostBox | null;
}

/** A selection with where it stands in the rows. */
export interface Placed {
  readonly selection: Selection;
  readonly place: Place | null;
}

/** The boxes of the selection, of its job's other runs, and of what the pointer rests on. */
export function outlinesOf(
  layout: Layout,
  selected: Placed | null,
  hovered: Placed | null,
): Pick<Overlay, 'selected' | 'kin' | 'hovered'> {
  const run = selected?.selection.kind === 'run' ? selected.selection.run : null;
  const job = run === null ? null : jobOf(run);
  return {
    selected: boxesOf(layout, selected),
    kin: job === null ? [] : layout.runs.filter((box) => box.run !== run && jobOf(box.run) === job),
    hovered: boxesOf(layout, hovered),
  };
}

function boxesOf(layout: Layout, placed: Placed | null): Box[] {
  if (placed === null) return [];
  const { selection, place } = placed;
  const isIt = (box: { readonly selection: Selection }): boolean => sameSelection(box.selection, selection);
  const signs: readonly Box[] = [...layout.marks.filter(isIt), ...layout.hands.filter(isIt)];
  if (selection.kind !== 'run') return [...layout.gaps.filter(isIt), ...layout.cares.filter(isIt), ...signs];
  const runs = layout.runs.filter(
    (box) => place !== null && box.row === place.row && box.from <= place.at && box.to >= place.at,
  );
  return [...runs, ...layout.tables.filter((box) => box.run === selection.run), ...signs];
}
