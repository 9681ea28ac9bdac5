import type { Fault, Plan, PlanCost, Shop, TableName } from '../shop';
import type { PlanReport } from './report';
import type { Purchase, Release, TonightView } from './tonight';

export * from './comparison';
export * from './report';
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
}

/** A stored plan with its report; `shop` is the shop as it was when the plan was made. */
export interface PlanView {
  readonly id: number;
  /** Local time in the shop's zone at which it was made. */
  readonly made: string;
  readonly plan: Plan;
  readonly shop: Shop;
  readonly report: PlanReport;
  /** True if the shop has changed since. */
  readonly outdated: boolean;
  /** Null: not released. */
  readonly released: Release | null;
}

export interface PlanSummary {
  readonly id: number;
  readonly made: string;
  readonly cost: PlanCost;
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
  'shop.remove': [{ table: TableName; id: string }, ShopView];
  'shop.settings': [ShopSettings, ShopView];
  /** Reads a shop file in place of the present shop, of which a dated backup is kept. */
  'shop.import': [{ text: string }, ShopView];
  'shop.export': [null, { fileName: string; text: string }];
  /** The demo shop, or an empty one, in place of the present shop; a dated backup is kept. */
  'shop.reset': [{ to: 'demo' | 'empty' }, ShopView];
  /** Starts planning; progress and end come as events. Refused while a plan is being made. */
  'plan.start': [{ seconds: number; seed: number }, null];
  /** Ends planning early, keeping the best plan so far. */
  'plan.stop': [null, null];
  'plan.latest': [null, PlanView | null];
  'plan.list': [null, PlanSummary[]];
  'plan.read': [{ id: number }, PlanView];
  /** Freezes a plan as the one people work by; the next one costs what it moves from it. */
  'plan.release': [{ id: number; checked: string[] }, PlanView];
  'tonight.read': [{ id: number }, TonightView];
  /** Works out what would buy more; each comes as an event. A visit is at a local time, or null for mid-night. */
  'tonight.buy': [{ id: number; visitAt: string | null }, null];
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
  'plan.done': { id: number };
  'plan.failed': { faults: readonly Fault[] };
  'shop.changed': { revision: number };
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
