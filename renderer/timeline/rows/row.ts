import type { IdleReason } from '../../../core/contract';
import type { AttendanceRole, Machine } from '../../../core/shop';
import type { Interval, Minute } from '../../../core/time';
import type { Selection } from '../selection';
import { EMPTY_TRACK, type Track, trackOf } from '../track';

export type MachineKind = Machine['kind'];

/** `bar`: as high as there is room for; `slim`: a person beneath the machines; `line`: a tool beneath its machine. */
export type RowSize = 'bar' | 'slim' | 'line';

/**
 * One row of the timeline, whatever it is for. What is drawn in it stands in tracks, one for each kind of sign, so that
 * layout and painting ask nothing about the kind of row.
 */
export interface Row {
  /** Names it among all rows, `machine M1`. */
  readonly key: string;
  readonly size: RowSize;
  /** Written above it where rows of another kind begin. */
  readonly heading: string | null;
  readonly head: RowHead;
  /** The machine it is for; null if it is for something else. */
  readonly machine: string | null;
  /** What overlaps in time lies in lanes of its own, one above the other. */
  readonly lanes: number;
  readonly items: Track<Item>;
  /** From the start of loading to the end of unloading, where that is the row's matter. */
  readonly stays: Track<Stay>;
  /** Hands on the table, the machine standing. */
  readonly tables: Track<TableSpan>;
  readonly holds: Track<InLane>;
  readonly spreads: Track<InLane>;
  readonly marks: Track<Mark>;
  readonly present: Track<Interval>;
  readonly breaks: Track<Interval>;
  readonly due: Due | null;
  /** Where runs were in another plan. */
  readonly were: Track<Was>;
  /** What is left of a tool. */
  readonly curve: Curve | null;
}

/** What stands beside a row. */
export interface RowHead {
  readonly name: string;
  /** In small letters beside the name. */
  readonly aside: string;
  /** Under the name. */
  readonly below: string;
  /** Said if something is wrong with it. */
  readonly bad: string | null;
  readonly kind: MachineKind | null;
}

export type Item = RunItem | GapItem | CareItem | HandItem;

/** `held`: locked; `clash`: it stays where it is put and something is in its way. */
export type Lock = 'held' | 'clash';

interface InLane extends Interval {
  readonly lane: number;
}

/** A run; from `start` to `end` it cuts. */
export interface RunItem extends InLane {
  readonly kind: 'run';
  readonly run: string;
  readonly job: string;
  readonly machine: string;
  readonly machineKind: MachineKind;
  readonly late: boolean;
  readonly lock: Lock | null;
  readonly hold: Interval | null;
  /** Loading and unloading on the table, in which the machine stands. */
  readonly table: readonly Interval[];
  /** From its end without any repeat to its end with every one; null where it has none. */
  readonly spread: Interval | null;
  /** What may be written on the bar, longest first. */
  readonly labels: readonly string[];
}

export interface GapItem extends Interval {
  readonly kind: 'gap';
  readonly machine: string;
  readonly reason: IdleReason;
  readonly label: string;
}

/** An attendance to the tools of a machine, which stands meanwhile. */
export interface CareItem extends Interval {
  readonly kind: 'care';
  readonly machine: string;
}

/** An attendance as a bar of its own, in the row of its person. */
export interface HandItem extends InLane {
  readonly kind: 'hand';
  /** When the next one in its lane begins: until then there is room for words. */
  readonly free: Minute;
  readonly selection: Selection;
  readonly role: AttendanceRole | 'care';
  readonly labels: readonly string[];
}

/** An attendance as a sign beneath the bars. */
export interface Mark extends Interval {
  readonly role: AttendanceRole | 'care';
  readonly selection: Selection;
}

export interface TableSpan extends InLane {
  readonly run: string;
  readonly machineKind: MachineKind;
}

export interface Stay extends InLane {
  readonly machineKind: MachineKind;
}

export interface Due {
  readonly minute: Minute;
  readonly late: boolean;
}

/** Where a run was in another plan, together with the way to where it is now. */
export interface Was extends Interval {
  readonly was: Interval;
  /** Where it starts now; null if it has left the row or starts as before. */
  readonly to: Minute | null;
}

/** Something that is used up and renewed over time. */
export interface Curve {
  readonly limit: number;
  readonly points: readonly { readonly at: Minute; readonly left: number }[];
  /** The minutes of the points, for finding them. */
  readonly ats: readonly Minute[];
  readonly replaced: readonly Minute[];
  readonly short: boolean;
  /** What is left at the end. */
  readonly words: string;
}

interface RowParts extends Pick<Row, 'key' | 'head'> {
  readonly size?: RowSize;
  readonly heading?: string | null;
  readonly machine?: string | null;
  readonly lanes?: number;
  readonly items?: readonly Item[];
  readonly stays?: readonly Stay[];
  readonly marks?: readonly Mark[];
  readonly present?: readonly Interval[];
  readonly breaks?: readonly Interval[];
  readonly due?: Due | null;
  readonly curve?: Curve;
}

/** A row of what is given; the rest of its tracks are empty. */
export function rowOf(parts: RowParts): Row {
  const runs = (parts.items ?? []).filter((item) => item.kind === 'run');
  const inLane = (item: RunItem, span: Interval): InLane => ({ ...span, lane: item.lane });
  return {
    key: parts.key,
    size: parts.size ?? 'bar',
    heading: parts.heading ?? null,
    head: parts.head,
    machine: parts.machine ?? null,
    lanes: parts.lanes ?? 1,
    items: tracked(parts.items),
    stays: tracked(parts.stays),
    tables: tracked(
      runs.flatMap((item) =>
        item.table.map(({ start, end }) => ({
          ...inLane(item, { start, end }),
          run: item.run,
          machineKind: item.machineKind,
        })),
      ),
    ),
    holds: tracked(runs.flatMap((item) => (item.hold === null ? [] : [inLane(item, item.hold)]))),
    spreads: tracked(runs.flatMap((item) => (item.spread === null ? [] : [inLane(item, item.spread)]))),
    marks: tracked(parts.marks),
    present: tracked(parts.present),
    breaks: tracked(parts.breaks),
    due: parts.due ?? null,
    were: EMPTY_TRACK,
    curve: parts.curve ?? null,
  };
}

function tracked<T extends Interval>(things: readonly T[] = []): Track<T> {
  return things.length === 0 ? EMPTY_TRACK : trackOf(things);
}
