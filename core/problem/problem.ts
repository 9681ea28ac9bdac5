import type { Shop } from '../shop';
import type { Clock, Interval, Minute } from '../time';

/** Rows of whole numbers laid end to end: row `i` is `items[start[i]]` up to, not including, `items[start[i + 1]]`. */
export interface Rows {
  readonly start: Int32Array;
  readonly items: Int32Array;
}

/** Sorted, disjoint intervals per owner: owner `i` has those from `first[i]` up to, not including, `first[i + 1]`. */
export interface IntervalRows {
  readonly first: Int32Array;
  readonly start: Int32Array;
  readonly end: Int32Array;
}

/**
 * What the tool ledger counts with, flat: `k` indexes the tool kinds of all machines one after the other, so that one
 * kind on two machines is two of them. All times are minutes.
 */
export interface ToolTable {
  /** Kinds of machine `m`: `k` from `first[m]` up to, not including, `first[m + 1]`. */
  readonly first: Int32Array;
  /** Index in the shop's list of tools. */
  readonly tool: Int32Array;
  readonly life: Int32Array;
  /** Must be left in a sister tool after an unattended cut. */
  readonly reserve: Int32Array;
  readonly replaceMinutes: Int32Array;
  /** 1 where a run takes its whole need from one tool: finish tools, and wheels dressed by hand. */
  readonly isWhole: Uint8Array;
  /** Grinding between two dressings by hand; endless where no hand dresses. */
  readonly dressEvery: Int32Array;
  readonly dressMinutes: Int32Array;
  /** Minutes left in the sister tools of each kind. */
  readonly left: Rows;
  /** Row `o`: the kinds an option uses, each followed by its minutes. */
  readonly needs: Rows;
  /** 1 for options that need more of a tool than a fresh one may give unattended. */
  readonly isDayOnly: Uint8Array;
  /** Row of the crews that may attend to each machine's tools. */
  readonly crew: Int32Array;
}

/** How far a run has come on the floor, or how it is held; the engine may move only `FREE` ones at will. */
export const FREE = 0;
export const LOCKED = 1;
export const LOADED = 2;
export const RUNNING = 3;
export const FINISHED = 4;

/** Not given: no such index. */
export const NONE = -1;

/** Not given: no such minute. Far from every minute, since what stands on the floor may have begun before the origin. */
export const NO_MINUTE = -0x40000000;

/**
 * A shop at a moment as the engine sees it: everything is an index or a whole minute, lists are flat typed arrays, and
 * names are kept only to write the plan. `r` indexes runs, `o` options (one machine a run may take), `m` machines,
 * `p` people, `b` pallets, `g` groups: runs of one operation of one job with as many parts, which nothing tells apart.
 */
export interface Problem {
  readonly shop: Shop;
  readonly clock: Clock;
  readonly now: Minute;
  readonly horizon: Minute;

  readonly runCount: number;
  readonly runIds: readonly string[];
  readonly runJob: Int32Array;
  readonly runGroup: Int32Array;
  /** Parts on the pallet. */
  readonly runParts: Int32Array;
  /** Minutes of its shortest cut over all machines its operation names, in use or not. */
  readonly shortestCut: Int32Array;
  /** Options of run `r`: `o` from `optionFirst[r]` up to, not including, `optionFirst[r + 1]`. */
  readonly optionFirst: Int32Array;
  readonly optionMachine: Int32Array;
  /** Minutes of cutting; at a bench of work. */
  readonly optionCut: Int32Array;
  /** Row of {@link crews}: the people with the skill. */
  readonly optionCrew: Int32Array;
  /** Row of {@link palletSets}: pallets of the fixture that fit the machine; NONE where no fixture is needed. */
  readonly optionPallets: Int32Array;
  /** Minutes the run may cut there in one unattended stretch; endless where that is not limited. */
  readonly optionAlone: Int32Array;
  /** 1 where a lock names a machine that the operation does not. */
  readonly isForeign: Uint8Array;
  readonly load: Int32Array;
  readonly unload: Int32Array;
  /** Minutes cut before the first-piece check, and its length; length 0 is no check. */
  readonly holdAfter: Int32Array;
  readonly checkMinutes: Int32Array;
  /** The run of the same operation whose first-piece check this one waits for, or NONE. */
  readonly firstPieceRun: Int32Array;
  /** Not on before this minute: release, the plan's moment, and predecessors already done with their lag. */
  readonly earliest: Int32Array;
  /** Minutes to wait after each predecessor. */
  readonly lag: Int32Array;
  /** Parts it carries that nobody checks before somebody comes, and how many of its job may lie on one machine so. */
  readonly suspects: Int32Array;
  readonly suspectLimit: Int32Array;
  /** Chance that it blocks its machine, and that it loses its pallet. */
  readonly block: Float64Array;
  readonly loss: Float64Array;
  readonly before: Rows;
  readonly after: Rows;
  /** The run that each one is locked behind: cut on the same machine and not before that one's cut ends; NONE for most. */
  readonly follows: Int32Array;
  /** Row `r`: the runs locked behind run `r`. */
  readonly followers: Rows;
  /** Runs locked behind another, here by name, with no machine that suits both and all tied to them: that cannot hold. */
  readonly apart: ReadonlyMap<number, string>;
  readonly state: Uint8Array;
  /** Held option (as `o`) and pallet, NONE where the floor does not say; held start and end, else NO_MINUTE. */
  readonly heldOption: Int32Array;
  readonly heldPallet: Int32Array;
  readonly heldStart: Int32Array;
  readonly heldEnd: Int32Array;

  /** What the tool ledger counts with; null where no run names a tool. */
  readonly tools: ToolTable | null;
  /** Attendances to tools a schedule has room for. */
  readonly careCount: number;

  readonly crews: Rows;
  readonly palletSets: Rows;

  readonly machineCount: number;
  readonly machineIds: readonly string[];
  readonly isBench: Uint8Array;
  readonly isTable: Uint8Array;
  readonly open: IntervalRows;
  /** Index of the shared or own places and load stations; NONE: without limit (places), or not needed (stations). */
  readonly machinePlaces: Int32Array;
  readonly machineStations: Int32Array;
  readonly placeLimit: Int32Array;
  readonly stationLimit: Int32Array;
  /** Spot of loading and unloading, and of everything else. */
  readonly loadSpot: Int32Array;
  readonly workSpot: Int32Array;

  readonly personCount: number;
  readonly personIds: readonly string[];
  /** Hours less breaks, inside now to horizon. */
  readonly free: IntervalRows;
  readonly extra: IntervalRows;
  readonly spotCount: number;
  /** `walk[from * spotCount + to]` in minutes. */
  readonly walk: Int32Array;

  readonly palletCount: number;
  readonly palletIds: readonly string[];
  /** Machines each pallet fits: the fewer, the better used there. */
  readonly palletReach: Int32Array;

  readonly jobCount: number;
  readonly due: Int32Array;
  readonly jobWeight: Float64Array;

  readonly groupCount: number;
  readonly groupJob: Int32Array;
  readonly groupStep: Int32Array;

  /** Whole, though part of it may be over. */
  readonly tonight: Interval | null;
  /** From now to the horizon. */
  readonly attended: readonly Interval[];
  readonly unattended: readonly Interval[];
}

/** True if the floor has the run, or a lock has its start: it is where and when it is held, whatever that breaks. */
export function isHeld({ state, heldStart }: Problem, run: number): boolean {
  return state[run]! > LOCKED || (state[run] === LOCKED && heldStart[run] !== NO_MINUTE);
}
