import type { IdleReason } from '../../core/contract';
import type { AttendanceRole } from '../../core/shop';
import type { Interval } from '../../core/time';
import { type CurveBox, curveBox } from './curve';
import type { Label, Measure } from './label';
import { handsOf, LOCK_CSS, laneOf } from './metrics';
import type { TimelineModel } from './model';
import { type Box, Placer, type View } from './placer';
import type { GapItem, HandItem, Item, Lock, MachineKind, Row, RunItem } from './rows/row';
import type { Selection } from './selection';
import { eachWithin, firstAbove } from './track';

/** A run, or several that are too narrow to be told apart and lie side by side. */
export interface RunBox extends Box {
  /** The run; of several the first. */
  readonly run: string;
  readonly row: number;
  /** Places in the row's track, first to last. */
  readonly from: number;
  readonly to: number;
  readonly kind: MachineKind;
  readonly late: boolean;
  readonly lock: Lock | null;
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

/** An attendance with its words, in the bar or beside it. */
export interface HandBox extends MarkBox {
  readonly label: Label | null;
  readonly isInside: boolean;
}

export interface CareBox extends Box {
  readonly selection: Selection;
}

/** Where a run was in another plan. */
export interface WasBox extends Box {
  /** Where it starts now, to be joined with; null if it has left the row. */
  readonly toX: number | null;
}

interface KindBox extends Box {
  readonly kind: MachineKind;
}

/** Everything on screen, decided: painting it decides nothing more. */
export interface Layout {
  readonly grounds: (Box & { readonly attended: boolean })[];
  /** Heights at which a row ends. */
  readonly rules: number[];
  readonly runs: RunBox[];
  readonly stays: KindBox[];
  readonly holds: Box[];
  /** Hands on the table, the machine standing. */
  readonly tables: (KindBox & { readonly run: string })[];
  readonly gaps: GapBox[];
  /** Attendances to tools, the machine standing. */
  readonly cares: CareBox[];
  readonly hands: HandBox[];
  /** How much sooner and later runs may end. */
  readonly spreads: Box[];
  readonly marks: MarkBox[];
  readonly present: Box[];
  readonly breaks: (Box & { readonly label: Label | null })[];
  readonly dues: (Box & { readonly late: boolean })[];
  readonly were: WasBox[];
  readonly curves: CurveBox[];
}

/** Narrower than this a mark could not be seen or hit. */
const LEAST_MARK = 5;

/**
 * Lays out what of the model is on screen: rows outside the view and things before or after it cost nothing. Bars that
 * touch in time share an edge, whatever the zoom.
 */
export function layoutBars(model: TimelineModel, view: View, measure: Measure): Layout {
  const place = new Placer(view, measure);
  const out: Layout = {
    ...{ grounds: [], rules: [], runs: [], stays: [], holds: [], tables: [], gaps: [], cares: [] },
    ...{ hands: [], spreads: [], marks: [], present: [], breaks: [], dues: [], were: [], curves: [] },
  };
  const { places, topCss, heightCss } = view;
  const y1 = Math.min(heightCss, places.total - topCss);
  eachWithin(model.presence, place.span, (band) => {
    out.grounds.push({ ...place.across(band, { y0: 0, y1 }), attended: band.people.length > 0 });
  });
  for (let i = firstAbove(places.bottoms, topCss); i < model.rows.length; i++) {
    if (places.tops[i]! >= topCss + heightCss) break;
    rowBoxes(model.rows[i]!, i, place, out);
  }
  return out;
}

function rowBoxes(row: Row, at: number, place: Placer, out: Layout): void {
  const { places, topCss } = place.view;
  const [top, height] = [places.tops[at]! - topCss, places.heights[at]!];
  const lanes = Array.from({ length: row.lanes }, (_, lane) => laneOf(row, top, height, lane));
  const laneFor = (lane: number) => lanes[lane] ?? lanes[0]!;
  out.rules.push(top + height);
  if (row.heading !== null) out.rules.push(top);
  eachWithin(row.stays, place.span, (stay) => {
    out.stays.push({ ...place.across(stay, laneFor(stay.lane)), kind: stay.machineKind });
  });
  itemBoxes(row, at, laneFor, place, out);
  eachWithin(row.holds, place.span, (hold) => {
    if (!place.isHair(hold)) out.holds.push(place.across(hold, laneFor(hold.lane)));
  });
  eachWithin(row.tables, place.span, (table) => {
    out.tables.push({ ...place.across(table, laneFor(table.lane)), run: table.run, kind: table.machineKind });
  });
  eachWithin(row.spreads, place.span, (spread) => {
    if (!place.isHair(spread)) out.spreads.push(place.across(spread, laneFor(spread.lane)));
  });
  presenceBoxes(row, top, height, place, out);
  markBoxes(row, row.size === 'slim' ? slimHands(top, height) : handsOf(top, height), place, out);
  eachWithin(row.were, place.span, ({ was, to }) => {
    out.were.push({ ...place.across(was, laneFor(0)), toX: to === null ? null : place.edge(to) });
  });
  if (row.curve !== null) out.curves.push(curveBox(row.curve, { y0: top + 4, y1: top + height - 4 }, place));
  if (row.due !== null && row.due.minute >= place.span.start && row.due.minute < place.span.end) {
    const x0 = place.edge(row.due.minute);
    out.dues.push({ x0, x1: x0 + place.hairline, y0: top, y1: top + height, late: row.due.late });
  }
}

type Sides = { readonly y0: number; readonly y1: number };

function itemBoxes(row: Row, at: number, laneFor: (lane: number) => Sides, place: Placer, out: Layout): void {
  const first = laneFor(0);
  eachWithin(row.items, place.span, (item, i) => {
    if (item.kind === 'run') pushRun(row, at, item, i, laneFor(item.lane), place, out);
    else if (item.kind === 'gap') out.gaps.push(gapBox(item, place.across(item, first), place));
    else if (item.kind === 'hand') out.hands.push(handBox(item, place.across(item, laneFor(item.lane)), place));
    else {
      const { machine, start } = item;
      out.cares.push({ ...wideEnough(place.across(item, first)), selection: { kind: 'care', machine, start } });
    }
  });
}

/** Runs narrower than a pixel of the display that touch on it become one box, so that a frame is bounded by its pixels. */
function pushRun(row: Row, at: number, item: RunItem, i: number, sides: Sides, place: Placer, out: Layout): void {
  const box = place.across(item, sides);
  const { run, machineKind: kind, late, lock } = item;
  if (place.isHair(item)) {
    const before = out.runs.at(-1);
    const joins = before?.row === at && before.label === null && before.y0 === box.y0 && before.x1 >= box.x0;
    if (joins && before.kind === kind && before.late === late && before.lock === lock && isHairs(before, place)) {
      out.runs[out.runs.length - 1] = { ...before, x1: Math.max(before.x1, box.x1), to: i };
      return;
    }
    out.runs.push({ ...box, run, row: at, from: i, to: i, kind, late, lock, label: null });
    return;
  }
  const beside = lock === null ? 0 : LOCK_CSS / place.view.scale.cssPerMin;
  const shown = place.onScreen({ start: item.start, end: Math.min(item.end, nextInLane(row.items.all, i)) });
  const free = { start: shown.start + beside, end: shown.end };
  const label = place.label(longestPiece(free, item.hold), item.labels);
  out.runs.push({ ...box, run, row: at, from: i, to: i, kind, late, lock, label });
}

/** A box of one run wider than a pixel keeps to itself. */
function isHairs(box: RunBox, place: Placer): boolean {
  return box.to > box.from || box.x1 - box.x0 <= place.hairline * 1.5;
}

/** Where a lock could not hold, runs overlap: the label ends where the next run begins. */
function nextInLane(items: readonly Item[], at: number): number {
  const item = items[at];
  if (item?.kind !== 'run') return Number.POSITIVE_INFINITY;
  for (let next = at + 1; next < items.length && items[next]!.start < item.end; next++) {
    const other = items[next]!;
    if (other.kind === 'run' && other.lane === item.lane) return other.start;
  }
  return Number.POSITIVE_INFINITY;
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

function handBox(item: HandItem, box: Box, place: Placer): HandBox {
  const inside = place.label(item, item.labels.slice(0, 1));
  const label = inside ?? place.label({ start: item.end, end: item.free }, item.labels);
  return { ...wideEnough(box), selection: item.selection, role: item.role, label, isInside: inside !== null };
}

function presenceBoxes(row: Row, top: number, height: number, place: Placer, out: Layout): void {
  const sides = { y0: top + 6, y1: top + height - 6 };
  eachWithin(row.present, place.span, (span) => out.present.push(place.across(span, sides)));
  eachWithin(row.breaks, place.span, (span) => {
    out.breaks.push({ ...place.across(span, sides), label: place.label(span, ['break']) });
  });
}

function slimHands(top: number, height: number): Sides {
  return { y0: top + 9, y1: top + height - 9 };
}

/** Marks of one kind that would lie on each other are drawn once. */
function markBoxes(row: Row, sides: Sides, place: Placer, out: Layout): void {
  const lastAt: Partial<Record<MarkBox['role'], number>> = {};
  eachWithin(row.marks, place.span, (mark) => {
    const box = wideEnough(place.across(mark, sides));
    const covered = box.x0 === lastAt[mark.role] && box.x1 - box.x0 <= LEAST_MARK;
    lastAt[mark.role] = box.x0;
    if (!covered) out.marks.push({ ...box, selection: mark.selection, role: mark.role });
  });
}

function wideEnough(box: Box): Box {
  return { ...box, x1: Math.max(box.x1, box.x0 + LEAST_MARK) };
}
