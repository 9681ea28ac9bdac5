import type { ImportCells, ImportReading, ListName, RowPut } from '../exchange';
import type { Substitute } from '../measure';
import type { Fault, Plan, PlanCost, Shop, TableName } from '../shop';
import type {
  ComparedPlans,
  CopyView,
  DeskChange,
  LoggedChange,
  PlanRef,
  PlanSummary,
  Trial,
  WayBack,
  WhyAbout,
} from './desk';
import type { PlanReport } from './report';
import type { RunSheet, SheetPaper } from './run-sheet';
import type { KindLedger, Purchase, Release, TonightView } from './tonight';
import type { Why } from './why';

export type { ImportCells, ImportField, ImportReading, ImportRow, ListName, RowPut } from '../exchange';
export type { Substitute } from '../measure';
export * from './comparison';
export * from './desk';
export * from './report';
export * from './run-sheet';
export * from './tonight';
export * from './why';

/** The one contract between the screens and the services; how it is carried (IPC, WebSocket) changes nothing in it. */

/** The shop as it stands in the store. */
export interface ShopView {
  readonly shop: Shop;
  /** Grows by one with every change. */
  readonly revision: number;
  /** What stops planning or deserves a look, over the whole shop. */
  readonly faults: readonly Fault[];
  /** The present moment as local time in the shop's zone, `YYYY-MM-DDTHH:MM`. */
  readonly present: string;
  /** What undo and redo would do now. */
  readonly wayBack: WayBack;
}

/** A stored plan with its report; `shop` is the shop as it was when the plan was made. */
export interface PlanView {
  readonly id: number;
  /** Local time in the shop's zone at which it was made. */
  readonly made: string;
  /** Given by the lead; empty: none. */
  readonly name: string;
  readonly plan: Plan;
  readonly shop: Shop;
  readonly report: PlanReport;
  /** True if the shop is not what it was when the plan was made. */
  readonly outdated: boolean;
  /** Null: not released. */
  readonly released: Release | null;
}

/** Everything of the shop that is not one of its tables. */
export type ShopSettings = Pick<Shop, 'name' | 'zone' | 'horizonDays' | 'planFrom' | 'weights' | 'walking' | 'night'>;

/** Choices of this seat, not of the shop. */
export interface SeatSettings {
  readonly theme: 'system' | 'light' | 'dark';
  /** Seconds a planning run may take. */
  readonly planSeconds: number;
}

/** The whole of what a screen may ask: name -> [what is sent, what comes back]. */
export interface Calls {
  'shop.read': [null, ShopView];
  /** Puts a row into a table: replaces the row whose id is `replaces`, or adds a new one if null. A changed id is changed wherever it is named. */
  'shop.put': [{ table: TableName; replaces: string | null; row: unknown }, ShopView];
  /**
   * Puts rows into a table as one change, all or none; `row` as in `shop.put`. `say` names the change to people:
   * `Import 42 jobs`. Faults begin at the row: `[3, 'due']`.
   */
  'shop.putMany': [{ table: TableName; rows: readonly RowPut[]; say: string }, ShopView];
  /** What cells from a spreadsheet would put into a table of the shop as it is; nothing is put in. */
  'rows.read': [ImportCells, ImportReading];
  'shop.remove': [{ table: TableName; id: string }, ShopView];
  'shop.settings': [ShopSettings, ShopView];
  /** Reads a shop file in place of the present shop, of which a dated backup is kept. */
  'shop.import': [{ text: string }, ShopView];
  'shop.export': [null, { fileName: string; text: string }];
  /** One list as CSV; those of a plan are of the latest one. */
  'list.export': [{ list: ListName }, { fileName: string; text: string }];
  /** The demo shop, or an empty one, in place of the present shop; a dated backup is kept. */
  'shop.reset': [{ to: 'demo' | 'empty' }, ShopView];
  /** Takes the last change back, or makes the last one taken back again; refused while a plan is being made. */
  'change.undo': [null, ShopView];
  'change.redo': [null, ShopView];
  /** Newest first. */
  'change.list': [null, LoggedChange[]];
  /** What would come of a change; null if a newer one was asked about meanwhile. */
  'desk.try': [{ change: DeskChange; seconds: number }, Trial | null];
  /** Makes a change; with the plan of that trial, if it is given and the shop is still the one it was tried on. */
  'desk.take': [{ change: DeskChange; trial: number | null }, ShopView];
  /**
   * Starts planning; progress and end come as events. Refused while a plan is being made. `near`: what is not locked
   * stays as near as it can to the plan that counts.
   */
  'plan.start': [{ seconds: number; seed: number; near: boolean }, null];
  /** Ends planning early, keeping the best plan so far. */
  'plan.stop': [null, null];
  /** The plan that counts: the last one made, unless an earlier one was brought back. */
  'plan.current': [null, PlanView | null];
  /** The plans of this shop, newest first. */
  'plan.list': [null, PlanSummary[]];
  'plan.read': [{ id: number }, PlanView];
  /** An empty name takes the name away. */
  'plan.name': [{ id: number; name: string }, PlanSummary[]];
  /** Brings an earlier plan back, with the shop as it was then if asked. */
  'plan.use': [{ id: number; withShop: boolean }, ShopView];
  /** Why something is where it is, and what would free it; null if something newer was asked meanwhile. */
  'plan.why': [{ id: number; about: WhyAbout }, Why | null];
  /** What becomes of every tool kind on every machine. */
  'plan.tools': [{ id: number }, readonly KindLedger[]];
  /** The pallets that could carry a run in place of its own, best first. */
  'plan.substitutes': [{ id: number; run: string }, readonly Substitute[]];
  'plan.compare': [{ before: PlanRef; after: PlanRef }, ComparedPlans];
  /** Freezes a plan as the one people work by; the next one costs what it moves from it. */
  'plan.release': [{ id: number; checked: string[] }, PlanView];
  'tonight.read': [{ id: number }, TonightView];
  /** Works out what would buy more; each comes as an event. A visit is at a local time, or null for mid-night. */
  'tonight.buy': [{ id: number; visitAt: string | null }, null];
  'copy.list': [null, CopyView[]];
  'copy.make': [{ name: string }, CopyView[]];
  'copy.name': [{ id: string; name: string }, CopyView[]];
  /** Moves its file into the folder of backups. */
  'copy.discard': [{ id: string }, CopyView[]];
  /** Makes the differences of a copy in the shop, as one change, and its plan the one that counts; the copy stays. */
  'copy.adopt': [{ id: string }, ShopView];
  /**
   * Plans copies one after the other, each as long and with the same seed; answers at once. Each end comes as
   * `copy.said` of that copy.
   */
  'copy.plan': [{ ids: readonly string[]; seconds: number; seed: number }, null];
  /** Any other call, asked of a copy of the shop in place of the shop. */
  'copy.call': [{ copy: string; call: string; sent: unknown }, unknown];
  /** What hangs at the machines for a plan's night. */
  'sheet.read': [{ id: number }, RunSheet];
  /** The same as a PDF to keep or to print. */
  'sheet.pdf': [{ id: number; paper: SheetPaper }, { fileName: string; base64: string }];
  'seat.read': [null, SeatSettings];
  'seat.put': [SeatSettings, SeatSettings];
}

export type CallName = keyof Calls;
export type Sent<K extends CallName> = Calls[K][0];
export type Returned<K extends CallName> = Calls[K][1];

/** Failures cross processes as data. */
export type Reply<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly faults: readonly Fault[] };

/** How far planning has come. */
export interface PlanProgress {
  readonly phase: 'construct' | 'allocate' | 'improve';
  readonly seconds: number;
  readonly limitSeconds: number;
  readonly steps: number;
  /** Cost of the best plan so far. */
  readonly cost: PlanCost | null;
  /** Least total any plan can have, once known. */
  readonly boundTotal: number | null;
  /** Most hours any plan can cut tonight, once known. */
  readonly boundTonight: number | null;
}

/** What the services say of themselves. */
export interface Events {
  'plan.progress': PlanProgress;
  /** The best plan so far where there is none yet to look at meanwhile; not stored, its id is 0. */
  'plan.soFar': PlanView;
  'plan.done': { id: number };
  'plan.failed': { faults: readonly Fault[] };
  'shop.changed': { revision: number };
  /** A copy was made, changed, planned or discarded. */
  'copy.changed': { id: string };
  /** What the services of a copy say of themselves. */
  'copy.said': { copy: string; event: string; data: unknown };
  /** `left`: things still to be worked out. */
  'tonight.bought': { id: number; purchase: Purchase; left: number };
  /** `say`: what went wrong, or null. */
  'tonight.done': { id: number; say: string | null };
}

export type EventName = keyof Events;

/** What a screen holds: the only way from renderer to main. */
export interface Api {
  call<K extends CallName>(name: K, sent: Sent<K>): Promise<Reply<Returned<K>>>;
  /** Returns how to stop listening. */
  on<K extends EventName>(name: K, hear: (event: Events[K]) => void): () => void;
}
