import type { Random } from '../random';
import { Estimator } from './estimate';
import { Graph } from './graph';
import type { MachineShop } from './machine-shop';
import type { SequenceSearch } from './sequence-search';
import { SLOTS, slot } from './tabu-list';

const NO_MOVE = 0x3fffffff;
/**
 * Moves for which a turned pair may not be turned back: at least this share of 10 and the runs per machine and machine,
 * and up to twice as many. Zhang et al. (2007) take the whole for a list of rows of runs; this list forbids every pair of
 * a row, which is stricter, and the whole was worse than less of it on 4 small and 6 large published shops.
 */
const TENURE = 0.4;

/**
 * Tabu search over one graph. A move takes a run of a critical block to one end of the block, or its first or last run
 * into it (Balas & Vazacopoulos, Management Science 44, 1998; Zhang et al., Computers & OR 34, 2007), or to another
 * machine, is priced by an estimate, and is forbidden while it would turn back a pair of runs turned lately (Nowicki &
 * Smutnicki, Management Science 42, 1996).
 */
export class Tabu implements SequenceSearch {
  best = NO_MOVE;
  readonly bestOrder: Int32Array;
  readonly bestOption: Int32Array;

  private readonly until = new Int32Array(SLOTS);
  private readonly path: Int32Array;
  private readonly estimator: Estimator;
  /** The move chosen: the run, the one it goes behind, and the option it then has. */
  private chosenRun = -1;
  private chosenBefore = -1;
  private chosenOption = -1;
  private chosenEstimate = NO_MOVE;
  private ties = 0;
  /** One of the forbidden moves, for when there is no other. */
  private fallbackRun = -1;
  private fallbackBefore = -1;
  private fallbackOption = -1;
  private fallbackSeen = 0;
  /** 1 for runs that have other machines to go to. */
  private readonly isFlexible: Uint8Array;

  private moves = 0;
  private readonly graph: Graph;

  constructor(
    shop: MachineShop,
    private readonly random: Random,
  ) {
    this.graph = new Graph(shop);
    const { count } = shop;
    this.bestOrder = new Int32Array(count);
    this.bestOption = new Int32Array(count);
    this.path = new Int32Array(count);
    this.estimator = new Estimator(this.graph);
    this.isFlexible = Uint8Array.from({ length: count }, (_, run) =>
      shop.optionFirst[run + 1]! - shop.optionFirst[run]! > 1 ? 1 : 0,
    );
  }

  begin(order: Int32Array, option: Int32Array): void {
    this.graph.load(order, option);
    this.until.fill(0);
    this.moves = 0;
    this.best = NO_MOVE;
    this.keepBest();
  }

  move(): boolean {
    const { graph } = this;
    this.moves++;
    const length = this.tracePath();
    this.chosenRun = -1;
    this.chosenEstimate = NO_MOVE;
    this.fallbackRun = -1;
    this.fallbackSeen = 0;
    this.considerBlocks(length);
    for (let i = 0; i < length; i++) if (this.isFlexible[this.path[i]!] === 1) this.considerMachines(this.path[i]!);
    if (this.chosenRun < 0) {
      if (this.fallbackRun < 0) return false;
      this.chosenRun = this.fallbackRun;
      this.chosenBefore = this.fallbackBefore;
      this.chosenOption = this.fallbackOption;
    }
    this.forbidReturn(this.chosenRun, this.chosenBefore, this.chosenOption);
    if (!graph.relocate(this.chosenRun, this.chosenOption, this.chosenBefore))
      throw new Error('a move closed a circle of runs');
    if (graph.makespan < this.best) this.keepBest();
    return true;
  }

  private keepBest(): void {
    this.best = this.graph.makespan;
    this.bestOrder.set(this.graph.order);
    this.bestOption.set(this.graph.option);
  }

  /** One longest path, chosen at random where it forks, into `path` from its last run back to its first. */
  private tracePath(): number {
    const { graph, path, random } = this;
    const { end, minutes, machineBefore, routeBefore, lagBefore, lastRuns, makespan, nobody } = graph;
    let run = nobody;
    let seen = 0;
    for (let i = 0; i < lastRuns.length; i++) {
      const r = lastRuns[i]!;
      if (end[r] === makespan && (++seen === 1 || random.below(seen) === 0)) run = r;
    }
    let length = 0;
    while (run !== nobody) {
      path[length++] = run;
      const from = end[run]! - minutes[run]!;
      const before = routeBefore[run]!;
      const machinePrevious = machineBefore[run]!;
      const byRoute = before !== nobody && end[before]! + lagBefore[run]! === from;
      const byMachine = machinePrevious !== nobody && end[machinePrevious]! === from;
      if (byRoute && byMachine) run = random.next() < 0.5 ? before : machinePrevious;
      else run = byMachine ? machinePrevious : byRoute ? before : nobody;
    }
    return length;
  }

  /** Every maximal row of runs on one machine, along the path. */
  private considerBlocks(length: number): void {
    const { path } = this;
    const { machineBefore } = this.graph;
    // The path lies backwards: `last` is the block's end in time, at the lower index.
    for (let last = 0; last < length; ) {
      let first = last;
      while (first + 1 < length && machineBefore[path[first]!] === path[first + 1]) first++;
      if (first > last) this.considerBlock(first, last, first === length - 1, last === 0);
      last = first + 1;
    }
  }

  private considerBlock(first: number, last: number, isFirstBlock: boolean, isLastBlock: boolean): void {
    const { path } = this;
    const begin = path[first]!;
    const end = path[last]!;
    if (first === last + 1) {
      this.considerAfter(begin, end);
      return;
    }
    for (let i = first; i > last; i--) {
      // To the end of the block: of no use in the last one, where only its beginning binds.
      if (!isLastBlock) this.considerAfter(path[i]!, end);
      if (!isFirstBlock && path[i - 1] !== path[first - 1]) this.considerBefore(path[i - 1]!, begin);
    }
    if (!isFirstBlock) for (let i = first - 1; i > last; i--) this.considerAfter(begin, path[i]!);
    if (!isLastBlock) for (let i = last + 1; i < first; i++) this.considerBefore(end, path[i]!);
    if (isFirstBlock && isLastBlock) this.considerAfter(begin, path[first - 1]!);
  }

  /** `run` right behind `place`, which comes later on the machine now. */
  private considerAfter(run: number, place: number): void {
    const { graph, estimator, until } = this;
    if (!estimator.canGoBehind(run, place)) return;
    let isTabu = false;
    for (let r = run; r !== place && !isTabu; ) {
      r = graph.machineAfter[r]!;
      isTabu = until[slot(r, run)]! > this.moves;
    }
    this.weigh(run, place, graph.option[run]!, estimator.behind(run, place), isTabu);
  }

  /** `run` right ahead of `place`, which comes earlier on the machine now. */
  private considerBefore(run: number, place: number): void {
    const { graph, estimator, until } = this;
    if (!estimator.canGoAhead(run, place)) return;
    let isTabu = false;
    for (let r = run; r !== place && !isTabu; ) {
      r = graph.machineBefore[r]!;
      isTabu = until[slot(run, r)]! > this.moves;
    }
    this.weigh(run, graph.machineBefore[place]!, graph.option[run]!, estimator.ahead(run, place), isTabu);
  }

  private weigh(run: number, before: number, option: number, estimate: number, isTabu: boolean): void {
    if (isTabu && estimate >= this.best) {
      if (this.random.below(++this.fallbackSeen) === 0) {
        this.fallbackRun = run;
        this.fallbackBefore = before;
        this.fallbackOption = option;
      }
      return;
    }
    if (estimate > this.chosenEstimate) return;
    if (estimate < this.chosenEstimate) {
      this.chosenEstimate = estimate;
      this.ties = 1;
    } else if (this.random.below(++this.ties) > 0) return;
    this.chosenRun = run;
    this.chosenBefore = before;
    this.chosenOption = option;
  }

  /**
   * A critical run on another machine, at any place there that surely closes no circle; priced by the longest way
   * through it (Mastrolilli & Gambardella, J. Scheduling 3, 2000).
   */
  private considerMachines(run: number): void {
    const { graph } = this;
    const { shop, end, way, minutes, place, nobody } = graph;
    const first = shop.optionFirst[run]!;
    const previous = graph.routeBefore[run]!;
    const next = graph.routeAfter[run]!;
    const from = Math.max(end[previous]! + graph.lagBefore[run]!, graph.release[run]!);
    const out = way[next]! + graph.lagAfter[run]!;
    const previousHead = end[previous]! - minutes[previous]!;
    const nextTail = way[next]! - minutes[next]!;
    for (let option = first; option < shop.optionFirst[run + 1]!; option++) {
      const machine = shop.optionMachine[option]!;
      if (machine === graph.machine[run]) continue;
      const cut = shop.optionCut[option]!;
      const isTabu = this.until[slot(run, ~option)]! > this.moves;
      let before = nobody;
      let after = graph.firstOn[machine]!;
      for (;;) {
        const isAfterOk =
          before === nobody ||
          next === nobody ||
          (before !== next && (place[before]! < place[next]! || nextTail < way[before]!));
        const isBeforeOk =
          after === nobody ||
          previous === nobody ||
          (after !== previous && (place[after]! > place[previous]! || previousHead < end[after]!));
        if (isAfterOk && isBeforeOk) {
          const free = end[before]!;
          const rest = way[after]!;
          const estimate = Math.max(free, from) + cut + Math.max(rest, out);
          this.weigh(run, before, option, estimate, isTabu);
        }
        if (after === nobody || !isAfterOk) break;
        before = after;
        after = graph.machineAfter[after]!;
      }
    }
  }

  private forbidReturn(run: number, before: number, option: number): void {
    const { graph, until } = this;
    const { machineBefore, machineAfter, place, nobody } = graph;
    const last = this.moves + this.tenure();
    if (option !== graph.option[run]) {
      until[slot(run, ~graph.option[run]!)] = last;
    } else if (before !== nobody && place[before]! > place[run]!) {
      for (let r = run; r !== before; ) {
        r = machineAfter[r]!;
        until[slot(run, r)] = last;
      }
    } else {
      for (let r = machineBefore[run]!; r !== before; r = machineBefore[r]!) until[slot(r, run)] = last;
    }
  }

  private tenure(): number {
    const { count, machines } = this.graph.shop;
    const least = (10 + count / (machines * machines)) * TENURE;
    return Math.round(least + this.random.next() * least);
  }
}
