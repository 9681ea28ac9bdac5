import type { IdleReason } from '../../core/contract';
import type { AttendanceRole } from '../../core/shop';
import type { Interval } from '../../core/time';
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
  readonly run: string;
  readonly role: AttendanceRole;
}

export interface Label {
  readonly text: string;
  readonly x: number;
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
  readonly marks: readonly MarkBox[];
  readonly present: readonly Box[];
  readonly breaks: readonly (Box & { readonly label: Label | null })[];
}

/** The width of a text in page pixels. */
export type Measure = (text: string) => number;

const TEXT_PAD = 6;
/** Narrower than this a mark could not be seen or hit. */
const LEAST_MARK = 5;

/** Lays out what of the model is on screen. Bars that touch in time share an edge, whatever the zoom. */
export function layoutBars(
  model: TimelineModel,
  scale: Scale,
  metrics: Metrics,
  dpr: number,
  measure: Measure,
): Layout {
  const place = new Placer(scale, dpr, measure);
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
  // Loading may be on screen while its run is not yet.
  const withTable = row.items.filter((item): item is RunItem => item.kind === 'run' && item.table.length > 0);
  return {
    runs: runs.map((item) => runBox(item, row.kind, place.across(item, y0, y1), place)),
    holds: place
      .visible(runs.flatMap((item) => (item.hold === null ? [] : [item.hold])))
      .map((hold) => place.across(hold, y0, y1)),
    tables: withTable.flatMap((item) =>
      place.visible(item.table).map((span) => ({ ...place.across(span, y0, y1), run: item.run, kind: row.kind })),
    ),
    gaps: gaps.map((item) => gapBox(item, place.across(item, y0, y1), place)),
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
      return { ...box, label: place.label(box, ['break']) };
    }),
    marks: place.visible(row.marks).map((mark) => markBox(mark, y0 + 3, y1 - 3, place)),
  };
}

function runBox(item: RunItem, kind: MachineKind, box: Box, place: Placer): RunBox {
  if (item.hold === null) return { ...box, run: item.run, kind, late: item.late, label: place.label(box, item.labels) };
  // The hold's pattern would make a label over it hard to read: written after it, or before it where that has more room.
  const hold = place.across(item.hold, box.y0, box.y1);
  const pieces = [
    { ...box, x0: Math.min(hold.x1, box.x1) },
    { ...box, x1: Math.max(hold.x0, box.x0) },
  ].sort((a, b) => b.x1 - b.x0 - (a.x1 - a.x0));
  const label = place.label(pieces[0] ?? box, item.labels);
  return { ...box, run: item.run, kind, late: item.late, label };
}

function gapBox(item: GapItem, box: Box, place: Placer): GapBox {
  return {
    ...box,
    reason: item.reason,
    selection: { kind: 'gap', machine: item.machine, start: item.start },
    label: item.label === '' ? null : place.label(box, [item.label]),
  };
}

function markBox(mark: Mark, y0: number, y1: number, place: Placer): MarkBox {
  const box = place.across(mark, y0, y1);
  return { ...box, x1: Math.max(box.x1, box.x0 + LEAST_MARK), run: mark.run, role: mark.role };
}

class Placer {
  private readonly span: Interval;

  constructor(
    private readonly scale: Scale,
    private readonly dpr: number,
    private readonly measure: Measure,
  ) {
    this.span = spanOf(scale);
  }

  visible<T extends Interval>(things: readonly T[]): T[] {
    return things.filter((thing) => thing.end > this.span.start && thing.start < this.span.end);
  }

  /** Cut to a little beyond the screen, as canvases lose precision far outside it. */
  across(span: Interval, y0: number, y1: number): Box {
    const edge = (minute: number): number => {
      const css = Math.min(Math.max(toPx(this.scale, minute), -8), this.scale.widthCss + 8);
      return Math.round(css * this.dpr) / this.dpr;
    };
    const x0 = edge(span.start);
    return { x0, x1: Math.max(edge(span.end), x0 + 1 / this.dpr), y0, y1 };
  }

  /** The first of `texts` that fits what of the box is on screen, where it starts; null if none does. */
  label(box: Box, texts: readonly string[]): Label | null {
    const left = Math.max(box.x0, 0) + TEXT_PAD;
    const room = Math.min(box.x1, this.scale.widthCss) - TEXT_PAD - left;
    const text = texts.find((candidate) => this.measure(candidate) <= room);
    return text === undefined ? null : { text, x: left };
  }
}
