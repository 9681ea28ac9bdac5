import type { IdleReason } from '../../core/contract';
import type { AttendanceRole } from '../../core/shop';
import type { Interval, Minute } from '../../core/time';
import { type Label, labelBetween, type Measure } from './label';
import type { Metrics } from './metrics';
import type { GapItem, MachineKind, MachineRow, Mark, PersonRow, RunItem, TimelineModel } from './model';
import { type Scale, spanOf, toPx } from './scale';
import type { Selection } from './selection';

/** Page pixels, edges on whole display pixels. */
export interface Box {
  readonly x0: number;
  readonly x1: number;
  readonly y0: number;
  readonly y1: number;
}

interface RunBox extends Box {
  readonly run: string;
  readonly kind: MachineKind;
  readonly late: boolean;
  readonly label: Label | null;
}

export interface GapBox extends Box {
  readonly selection: Selection;
  readonly reason: IdleReason;
  readonly label: Label | null;
}

export interface MarkBox extends Box {
  readonly selection: Selection;
  readonly role: AttendanceRole | 'care';
}

export interface CareBox extends Box {
  readonly selection: Selection;
}

interface GroundBox extends Box {
  readonly attended: boolean;
}

/** Everything on screen, decided: painting it decides nothing more. */
export interface Layout {
  readonly grounds: readonly GroundBox[];
  readonly rules: readonly number[];
  readonly runs: readonly RunBox[];
  readonly holds: readonly Box[];
  /** Hands on the table, the machine standing. */
  readonly tables: readonly (Box & { readonly run: string; readonly kind: MachineKind })[];
  readonly gaps: readonly GapBox[];
  /** Attendances to tools, the machine standing. */
  readonly cares: readonly CareBox[];
  /** How much sooner and later runs may end. */
  readonly spreads: readonly Box[];
  readonly marks: readonly MarkBox[];
  readonly present: readonly Box[];
  readonly breaks: readonly (Box & { readonly label: Label | null })[];
}

/** Narrower than this a mark could not be seen or hit. */
const LEAST_MARK = 5;

/** Lays out what of the model is on screen. Bars that touch in time share an edge, whatever the zoom. */
export function layoutBars(
  model: TimelineModel,
  scale: Scale,
  nowMin: Minute,
  metrics: Metrics,
  dpr: number,
  measure: Measure,
): Layout {
  const place = new Placer(scale, nowMin, dpr, measure);
  const rows = model.machines.map((row, i) => machineBoxes(row, i * metrics.row, metrics, place));
  const peopleTop = model.machines.length * metrics.row + metrics.divide;
  const people = model.people.map((row, i) => personBoxes(row, peopleTop + i * metrics.person, metrics, place));
  const bottom = peopleTop + model.people.length * metrics.person;
  return {
    grounds: place
      .visible(model.presence)
      .map((band) => ({ ...place.across(band, 0, bottom), attended: band.people.length > 0 })),
    rules: [
      ...model.machines.map((_, i) => (i + 1) * metrics.row),
      ...model.people.map((_, i) => peopleTop + i * metrics.person),
    ],
    runs: rows.flatMap((row) => row.runs),
    holds: rows.flatMap((row) => row.holds),
    tables: rows.flatMap((row) => row.tables),
    gaps: rows.flatMap((row) => row.gaps),
    cares: rows.flatMap((row) => row.cares),
    spreads: rows.flatMap((row) => row.spreads),
    marks: [...rows, ...people].flatMap((row) => row.marks),
    present: people.flatMap((row) => row.present),
    breaks: people.flatMap((row) => row.breaks),
  };
}

function machineBoxes(row: MachineRow, top: number, metrics: Metrics, place: Placer) {
  const y0 = top + metrics.bar.top;
  const y1 = y0 + metrics.bar.height;
  const laneTop = top + metrics.lane.top;
  const items = place.visible(row.items);
  const runs = items.filter((item) => item.kind === 'run');
  const gaps = items.filter((item) => item.kind === 'gap');
  const cares = items.filter((item) => item.kind === 'care');
  // Loading may be on screen while its run is not yet.
  const withTable = row.items.filter((item): item is RunItem => item.kind === 'run' && item.table.length > 0);
  return {
    runs: runs.map((item, i) => {
      // Where a lock could not hold, runs overlap: the label ends where the next run begins.
      const free = place.onScreen({ start: item.start, end: Math.min(item.end, runs[i + 1]?.start ?? item.end) });
      return { ...place.across(item, y0, y1), ...runWords(item, free, row.kind, place) };
    }),
    holds: place
      .visible(runs.flatMap((item) => (item.hold === null ? [] : [item.hold])))
      .map((hold) => place.across(hold, y0, y1)),
    tables: withTable.flatMap((item) =>
      place.visible(item.table).map((span) => ({ ...place.across(span, y0, y1), run: item.run, kind: row.kind })),
    ),
    gaps: gaps.map((item) => gapBox(item, place.across(item, y0, y1), place)),
    cares: cares.map(({ machine, start, end }) => ({
      ...wideEnough(place.across({ start, end }, y0, y1)),
      selection: { kind: 'care' as const, machine, start },
    })),
    spreads: place
      .visible(runs.flatMap((item) => (item.spread === null ? [] : [item.spread])))
      .map((spread) => place.across(spread, y0, y1)),
    marks: place.visible(row.marks).map((mark) => markBox(mark, laneTop, laneTop + metrics.lane.height, place)),
  };
}

function personBoxes(row: PersonRow, top: number, metrics: Metrics, place: Placer) {
  const y0 = top + 6;
  const y1 = top + metrics.person - 6;
  return {
    present: place.visible(row.present).map((span) => place.across(span, y0, y1)),
    breaks: place.visible(row.breaks).map((span) => {
      const box = place.across(span, y0, y1);
      return { ...box, label: place.label(span, ['break']) };
    }),
    marks: place.visible(row.marks).map((mark) => markBox(mark, y0 + 3, y1 - 3, place)),
  };
}

function runWords(item: RunItem, free: Interval, kind: MachineKind, place: Placer): Omit<RunBox, keyof Box> {
  return { run: item.run, kind, late: item.late, label: place.label(longestPiece(free, item.hold), item.labels) };
}

/** The hold's pattern would make a label over it hard to read: written after it, or before it where that has more room. */
function longestPiece(free: Interval, hold: Interval | null): Interval {
  if (hold === null) return free;
  const after = { start: Math.min(hold.end, free.end), end: free.end };
  const before = { start: free.start, end: Math.min(Math.max(hold.start, free.start), free.end) };
  return after.end - after.start >= before.end - before.start ? after : before;
}

function gapBox(item: GapItem, box: Box, place: Placer): GapBox {
  return {
    ...box,
    reason: item.reason,
    selection: { kind: 'gap', machine: item.machine, start: item.start },
    label: item.label === '' ? null : place.label(item, [item.label]),
  };
}

function markBox(mark: Mark, y0: number, y1: number, place: Placer): MarkBox {
  return { ...wideEnough(place.across(mark, y0, y1)), selection: mark.selection, role: mark.role };
}

function wideEnough(box: Box): Box {
  return { ...box, x1: Math.max(box.x1, box.x0 + LEAST_MARK) };
}

class Placer {
  private readonly span: Interval;

  constructor(
    private readonly scale: Scale,
    private readonly nowMin: Minute,
    private readonly dpr: number,
    private readonly measure: Measure,
  ) {
    this.span = spanOf(scale);
  }

  visible<T extends Interval>(things: readonly T[]): T[] {
    return things.filter((thing) => thing.end > this.span.start && thing.start < this.span.end);
  }

  onScreen(span: Interval): Interval {
    return { start: Math.max(span.start, this.span.start), end: Math.min(span.end, this.span.end) };
  }

  across(span: Interval, y0: number, y1: number): Box {
    const x0 = this.edge(span.start);
    return { x0, x1: Math.max(this.edge(span.end), x0 + 1 / this.dpr), y0, y1 };
  }

  /** The first of `texts` that fits what of the span is on screen; null if none does. */
  label(span: Interval, texts: readonly string[]): Label | null {
    const { start, end } = this.onScreen(span);
    return labelBetween(
      { x0: this.edge(start), x1: this.edge(end) },
      toPx(this.scale, this.nowMin),
      texts,
      this.measure,
    );
  }

  /** Cut to a little beyond the screen, as canvases lose precision far outside it. */
  private edge(minute: number): number {
    const css = Math.min(Math.max(toPx(this.scale, minute), -8), this.scale.widthCss + 8);
    return Math.round(css * this.dpr) / this.dpr;
  }
}
