import type { Plan, Shop } from '../shop';
import {
  BLOCKS,
  BLOCKS_WHEN,
  CHANGES_PALLET,
  CHECKS,
  CYCLE,
  Draws,
  keyOf,
  LOSES,
  SHARED,
  SHARED_WHEN,
  WEARS,
} from './draws';
import { normalAt, normalBelow } from './normal';
import type { NightOptions, StopKind } from './outcome';
import { type MachineQueue, type NightQueues, type QueuedRun, queuesOf } from './queue';

/** A cycle is at least this share of what it is planned to be. */
const SHORTEST_CYCLE = 0.5;

/** A tool that survived what it has been used for has at least so many minutes of life left. */
const LEAST_LIFE = 0.5;

/** What stopped a machine in one night. */
export interface Stop {
  kind: StopKind | null;
  /** Index of the run it stopped at among the machine's, or -1. */
  run: number;
  /** The tool kind among the machine's, or the shared cause. */
  cause: number;
}

/** How one night went on one machine. */
export interface MachineResult {
  /** Minutes in the stretch of runs that came to something. */
  good: number;
  /** The minute it fell still, for good. */
  quiet: number;
  readonly stop: Stop;
  /** By run: minutes of the whole cut; whether it came to something; parts made wrong unnoticed. */
  readonly length: Float64Array;
  readonly done: Uint8Array;
  readonly wrong: Float64Array;
}

/**
 * Simulates nights of one plan, one at a time.
 *
 * Each machine cuts its queue in order, with nobody there. A run lasts its cut times a normal factor, plus what its
 * checks repeat: each finds its feature out of limits with its chance, up to `most` times, and then sets the pallet
 * aside. It may block its machine (at any moment of its cut alike, then the machine stands until morning), lose its
 * pallet (the machine goes on), or not come in at all (the pallet changer). Tools live as long as a normal distribution
 * says of those that have survived so far. A worn roughing tool is followed by its next sister; with none left the
 * machine stops there. A worn finish tool spoils the pallet: where the operation has a check that is noticed and the
 * next sister follows, otherwise it cuts on unnoticed. Shared causes stop all their machines at one moment. What stops
 * a machine before the stretch begins is mended by whoever is there.
 *
 * Left out: that a run waiting for the people of the evening is late, and what a stopped machine blocks in a shared cell.
 */
export class NightSimulator {
  readonly queues: NightQueues;
  readonly results: readonly MachineResult[];
  private readonly draws: Draws;
  private readonly machines: readonly SimulatedMachine[];
  private readonly shared: readonly { readonly key: number; readonly chance: number }[];
  private readonly sharedAt: Float64Array;

  constructor(shop: Shop, plan: Plan, { seed, stretch: given }: Pick<NightOptions, 'seed' | 'stretch'>) {
    this.queues = queuesOf(shop, plan, given);
    this.draws = new Draws(seed);
    this.shared = shop.night.shared.map(({ name, chance }) => ({ key: keyOf(name), chance }));
    this.sharedAt = new Float64Array(this.shared.length);
    const stretch = this.queues.stretch ?? { start: 0, end: 0 };
    this.machines = this.queues.machines.map((queue) => {
      const causes = shop.night.shared.flatMap(({ machines }, cause) =>
        machines.length === 0 || machines.includes(queue.machine.id) ? [cause] : [],
      );
      return new SimulatedMachine(queue, shop, stretch.start, stretch.end, causes);
    });
    this.results = this.machines.map((machine) => machine.result);
  }

  /** Plays one night; the same number is the same luck. Afterwards {@link results} tell how it went. */
  play(night: number): void {
    const { draws, shared, sharedAt } = this;
    const { stretch } = this.queues;
    if (stretch === null) return;
    draws.begin(night);
    for (let cause = 0; cause < shared.length; cause++) {
      const { key, chance } = shared[cause]!;
      sharedAt[cause] =
        draws.next(key, SHARED) < chance
          ? stretch.start + draws.next(key, SHARED_WHEN) * (stretch.end - stretch.start)
          : Number.POSITIVE_INFINITY;
    }
    for (const machine of this.machines) machine.play(draws, sharedAt);
  }
}

/** One machine's queue as numbers, and what becomes of it in a night. */
class SimulatedMachine {
  readonly result: MachineResult;
  // The tools as they stand in this night, sister by sister: minutes the counter gives them, and minutes they will last.
  private readonly counted: Float64Array[];
  private readonly lasting: Float64Array[];
  private readonly current: Int32Array;

  constructor(
    private readonly queue: MachineQueue,
    private readonly shop: Shop,
    private readonly from: number,
    private readonly until: number,
    private readonly causes: readonly number[],
  ) {
    const { runs, tools } = queue;
    this.counted = tools.map(({ sisters }) => new Float64Array(sisters.length));
    this.lasting = tools.map(({ sisters }) => new Float64Array(sisters.length));
    this.current = new Int32Array(tools.length);
    this.result = {
      good: 0,
      quiet: from,
      stop: { kind: null, run: -1, cause: -1 },
      length: new Float64Array(runs.length),
      done: new Uint8Array(runs.length),
      wrong: new Float64Array(runs.length),
    };
  }

  play(draws: Draws, sharedAt: Float64Array): void {
    const { result, queue, from, until } = this;
    const { runs } = queue;
    result.good = 0;
    result.quiet = from;
    result.stop.kind = null;
    result.stop.run = result.stop.cause = -1;
    result.done.fill(0);
    result.wrong.fill(0);
    this.fetchTools(draws);
    const cause = this.firstShared(sharedAt);
    const sharedMoment = cause < 0 ? Number.POSITIVE_INFINITY : sharedAt[cause]!;
    let free = from;
    for (let i = 0; i < runs.length; i++) {
      const run = runs[i]!;
      const start = run.begun ?? Math.max(free, run.notBefore);
      if (start >= until) break;
      if (sharedMoment <= start) break;
      if (this.failsToCome(draws, run)) {
        this.stop('handling', i, -1);
        return;
      }
      const isSetAside = this.draw(draws, run, i);
      const end = start + result.length[i]!;
      const worn = this.wear(run, i, start);
      const blocked =
        draws.next(run.key, BLOCKS) < run.need.operation.odds.block
          ? start + draws.next(run.key, BLOCKS_WHEN) * result.length[i]!
          : Number.POSITIVE_INFINITY;
      const stopped = Math.min(blocked, worn, sharedMoment);
      if (stopped < end && stopped < until && stopped >= from) {
        result.quiet = Math.max(from, stopped);
        if (stopped === sharedMoment) this.stop('shared', i, cause);
        else this.stop(stopped === blocked ? 'block' : 'tool', i, stopped === blocked ? -1 : this.wornKind);
        return;
      }
      free = end;
      result.quiet = Math.min(end, until);
      const isLost = isSetAside || draws.next(run.key, LOSES) < run.need.operation.odds.loss || this.isSpoiled;
      if (isLost) continue;
      result.good += Math.max(0, Math.min(end, until) - Math.max(start, from));
      result.done[i] = 1;
    }
    if (sharedMoment < until && runs.length > 0) this.noteIdleStop(sharedMoment, cause);
  }

  // What the last wearing of tools found.
  private isSpoiled = false;
  private wornKind = -1;

  private stop(kind: StopKind, run: number, cause: number): void {
    const { stop } = this.result;
    stop.kind = kind;
    stop.run = run;
    stop.cause = cause;
  }

  /** A shared cause between two runs: what has not begun never does. */
  private noteIdleStop(moment: number, cause: number): void {
    const { runs } = this.queue;
    const next = runs.findIndex((run) => run.begun === null && run.planned.start >= moment);
    if (next >= 0 && this.result.quiet <= moment && this.result.done[next] === 0) this.stop('shared', next, cause);
  }

  private firstShared(sharedAt: Float64Array): number {
    let first = -1;
    for (const cause of this.causes) {
      if (sharedAt[cause]! < Number.POSITIVE_INFINITY && (first < 0 || sharedAt[cause]! < sharedAt[first]!))
        first = cause;
    }
    return first;
  }

  private failsToCome(draws: Draws, run: QueuedRun): boolean {
    if (!this.queue.hasChanger || run.begun !== null) return false;
    return draws.next(run.key, CHANGES_PALLET) < this.shop.night.handling;
  }

  /** Draws the length of a run; true if a check sets its pallet aside. */
  private draw(draws: Draws, run: QueuedRun, i: number): boolean {
    const { cycleSpread } = this.shop.night;
    const factor = cycleSpread === 0 ? 1 : 1 + cycleSpread * normalAt(draws.next(run.key, CYCLE));
    let length = run.cut * Math.max(SHORTEST_CYCLE, factor);
    let isSetAside = false;
    const { checks } = run.need.operation;
    for (let c = 0; c < checks.length; c++) {
      const { chance, repeat, most } = checks[c]!;
      if (chance === 0) continue;
      // So many times out of limits in a row as the one draw is below the chance's powers.
      const luck = draws.next(run.key, CHECKS + c);
      const outs = Math.min(most + 1, Math.floor(Math.log(luck) / Math.log(chance)));
      length += Math.min(outs, most) * repeat;
      if (outs > most) isSetAside = true;
    }
    this.result.length[i] = length;
    return isSetAside;
  }

  private fetchTools(draws: Draws): void {
    for (let k = 0; k < this.queue.tools.length; k++) {
      const { tool, sisters } = this.queue.tools[k]!;
      this.current[k] = 0;
      const spread = tool.life * tool.lifeSpread;
      for (let s = 0; s < sisters.length; s++) {
        const { key, left, used } = sisters[s]!;
        this.counted[k]![s] = left;
        if (spread === 0) {
          this.lasting[k]![s] = Math.max(0, tool.life - used);
          continue;
        }
        // Of the tools that are still good after so many minutes.
        const gone = normalBelow((used - tool.life) / spread);
        const life = tool.life + spread * normalAt(gone + draws.next(key, WEARS) * (1 - gone));
        this.lasting[k]![s] = Math.max(LEAST_LIFE, life - used);
      }
    }
  }

  /** Uses up the tools of a run; the moment at which one is worn with no sister left, or never. */
  private wear(run: QueuedRun, i: number, start: number): number {
    this.isSpoiled = false;
    this.wornKind = -1;
    let stops = Number.POSITIVE_INFINITY;
    const length = this.result.length[i]!;
    const stretchedBy = run.plannedCut === 0 ? 1 : length / run.plannedCut;
    for (const { kind, minutes } of run.tools) {
      const { tool } = this.queue.tools[kind]!;
      const needed = minutes * stretchedBy;
      const isWhole = tool.finish || tool.dressing?.by === 'hand';
      const share = isWhole ? this.finish(kind, minutes, needed, run, i) : this.rough(kind, needed);
      if (share === 1) continue;
      const moment = start + share * length;
      if (moment >= stops) continue;
      stops = moment;
      this.wornKind = kind;
    }
    return stops;
  }

  /** The share of its need that a roughing tool and its sisters last for. */
  private rough(kind: number, needed: number): number {
    const counted = this.counted[kind]!;
    const lasting = this.lasting[kind]!;
    let missing = needed;
    let s = this.current[kind]!;
    while (missing > 0 && s < counted.length) {
      const isLast = s === counted.length - 1;
      // The counter sends for the next one when a tool's time is up; the last one goes on until it is worn.
      const most = isLast ? lasting[s]! : Math.min(lasting[s]!, counted[s]!);
      const taken = Math.min(missing, most);
      missing -= taken;
      lasting[s]! -= taken;
      counted[s] = Math.max(0, counted[s]! - taken);
      if (missing > 0) s++;
    }
    this.current[kind] = Math.min(s, counted.length - 1);
    return missing > 1e-9 ? 1 - missing / needed : 1;
  }

  /** A whole cut by one tool. One that wears out in it spoils the pallet; noticed, the next sister follows it. */
  private finish(kind: number, planned: number, needed: number, run: QueuedRun, i: number): number {
    const counted = this.counted[kind]!;
    const lasting = this.lasting[kind]!;
    let chosen = -1;
    for (let s = 0; s < counted.length && chosen < 0; s++) if (counted[s]! >= planned) chosen = s;
    if (chosen < 0) return 0;
    counted[chosen]! -= planned;
    lasting[chosen]! -= needed;
    if (lasting[chosen]! >= 0) return 1;
    this.isSpoiled = true;
    if (run.need.operation.checks.length === 0) this.result.wrong[i] = run.need.parts;
    else counted[chosen] = 0;
    return 1;
  }
}
