import { type RefObject, useRef, useState } from 'react';
import type { Interval, Minute } from '../../core/time';
import { type Place, selectionOf, type TimelineModel } from './model';
import { handText, nextHand } from './next-hand';
import type { PlanIndex } from './plan-index';
import { type Selection, sameSelection } from './selection';
import type { Surface } from './surface';

interface Jumped {
  /** Place among the plan's attendances; null if none was reached. */
  readonly at: number | null;
  readonly selection: Selection | null;
  readonly words: string;
}

/** Zoomed to, a selection keeps this share of its length free on either side, and shows no less than an hour. */
const ROUND_IT = 0.15;
const LEAST_MIN = 60;

interface Jumps {
  /** Selects the next attendance, or the one after that reached last. */
  nextHand(): void;
  zoomTo(span: Interval): void;
  /** For the live region: the attendance reached; empty once something else is selected. */
  readonly said: string;
}

export function useJumps(
  surface: RefObject<Surface | null>,
  index: PlanIndex,
  model: TimelineModel,
  nowMin: Minute,
  selection: Selection | null,
  select: (selection: Selection, place: Place | null, span: Interval) => void,
): Jumps {
  const [jumped, setJumped] = useState<Jumped | null>(null);
  const reached = useRef<PlanIndex | null>(null);
  const stands = jumped !== null && reached.current === index && sameSelection(jumped.selection, selection);
  return {
    nextHand() {
      const last = stands ? jumped.at : null;
      const next = nextHand(index, last, nowMin);
      reached.current = index;
      if (next === null) {
        setJumped({ at: last, selection, words: 'No later attendance in this plan.' });
        return;
      }
      const { mark, at } = next;
      setJumped({ at, selection: mark.selection, words: handText(index, next) });
      select(mark.selection, placeAt(model, mark.selection, mark.start), mark);
    },
    zoomTo({ start, end }) {
      const round = Math.max((end - start) * ROUND_IT, (LEAST_MIN - (end - start)) / 2);
      surface.current?.show({ start: start - round, end: end + round });
    },
    said: stands ? jumped.words : '',
  };
}

/** The very attendance, where it has a bar of its own; elsewhere the selection's own place will do. */
function placeAt(model: TimelineModel, selection: Selection, start: Minute): Place | null {
  for (const [row, { items }] of model.rows.entries()) {
    const at = items.all.findIndex(
      (item) => item.kind === 'hand' && item.start === start && sameSelection(selectionOf(item), selection),
    );
    if (at >= 0) return { row, at };
  }
  return null;
}
