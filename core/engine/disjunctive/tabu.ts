import type { Random } from '../random';
import { Graph } from './graph';
import type { MachineShop } from './machine-shop';
import type { SequenceSearch } from './sequence-search';
import { SLOTS, slot } from './tabu-list';

const NO_MOVE = 0x3fffffff;

/**
 * Tabu search over one graph. A move takes a run of a critical block to one end of the block, or its first or last run
 * into it (Balas & Vazacopoulos, Management Science 44, 1998; Zhang et al., Computers & OR 34, 2007), is priced by
 * re-estimating heads and tails of the runs it passes (Taillard, ORSA J. Computing 6, 1994), and is forbidden while it
 * would turn back a pair of runs turned lately (Nowicki & Smutnicki, Management Science 42, 1996).
 */
export class Tabu implements SequenceSearch {
  best = NO_MOVE;
  readonly bestOrder: Int32Array;
  readonly bestOption: Int32Array;

  private readonly until = new Int32Array(SLOTS);
  private readonly path: Int32Array;
  private readonly newHead: Int32Array;
  private readonly newTail: Int32Array;
  private chosenRun = -1;
  private chosenPlace = -1;
  /** The option the chosen run changes to, or -1 where it stays on its machine. */
  private chosenOption = -1;
  private chosenEstimate = NO_MOVE;
  private ties = 0;
  private fallbackRun = -1;
  private fallbackPlace = -1;
  private fallbackOption = -1;
  private fallbackSeen = 0;

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
    this.newHead = new Int32Array(count);
    this.newTail = new Int32Array(count);
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
    for (let i = 0; i < length; i++) this.considerMachines(this.path[i]!);
    if (this.chosenRun < 0) {
      if (this.fallbackRun < 0) return false;
      this.chosenRun = this.fallbackRun;
      this.chosenPlace = this.fallbackPlace;
      this.chosenOption = this.fallbackOption;
    }
    if (this.chosenOption < 0) this.apply(this.chosenRun, this.chosenPlace);
    else this.reassign(this.chosenRun, this.chosenOption, this.chosenPlace);
    if (!graph.evaluate()) throw new Error('a move closed a circle of runs');
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
    const { head, minutes, machineBefore, shop } = graph;
    let run = -1;
    let seen = 0;
    for (let r = 0; r < shop.count; r++) {
      if (head[r]! + minutes[r]! === graph.makespan && random.below(++seen) === 0) run = r;
    }
    let length = 0;
    while (run >= 0) {
      path[length++] = run;
      const before = shop.before[run]!;
      const machinePrevious = machineBefore[run]!;
      const byRoute = before >= 0 && head[before]! + minutes[before]! + shop.lag[run]! === head[run];
      const byMachine = machinePrevious >= 0 && head[machinePrevious]! + minutes[machinePrevious]! === head[run];
      if (byRoute && byMachine) run = random.next() < 0.5 ? before : machinePrevious;
      else run = byMachine ? machinePrevious : byRoute ? before : -1;
    }
    return length;
  }

  /** Every maximal row of runs on one machine, along the path. */
  private considerBlocks(length: number): void {
    const { graph, path } = this;
    // The path lies backwards: `last` is the block's end in time, at the lower index.
    for (let last = 0; last < length; ) {
      let first = last;
      while (
        first + 1 < length &&
        graph.machine[path[first + 1]!] === graph.machine[path[last]!] &&
        graph.machineBefore[path[first]!] === path[first + 1]
      )
        first++;
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
    const { graph } = this;
    const { tail, minutes, machineAfter, shop } = graph;
    const next = shop.after[run]!;
    if (next === place) return;
    // Else the run's successor might lead to `place`, and the move would close a circle.
    if (
      next >= 0 &&
      machineAfter[run] !== place &&
      tail[place]! + minutes[place]! < tail[next]! + minutes[next]! + shop.lag[next]!
    )
      return;
    let isTabu = false;
    for (let r = machineAfter[run]!; ; r = machineAfter[r]!) {
      if (this.until[slot(r, run)]! > this.moves) isTabu = true;
      if (r === place) break;
    }
    this.weigh(run, place, -1, this.estimateAfter(run, place), isTabu);
  }

  /** `run` right before `place`, which comes earlier on the machine now. */
  private considerBefore(run: number, place: number): void {
    const { graph } = this;
    const { head, minutes, machineBefore, shop } = graph;
    const previous = shop.before[run]!;
    if (previous === place) return;
    if (
      previous >= 0 &&
      machineBefore[run] !== place &&
      head[place]! + minutes[place]! < head[previous]! + minutes[previous]! + shop.lag[run]!
    )
      return;
    let isTabu = false;
    for (let r = machineBefore[run]!; ; r = machineBefore[r]!) {
      if (this.until[slot(run, r)]! > this.moves) isTabu = true;
      if (r === place) break;
    }
    // A place below zero says "before": ~place.
    this.weigh(run, ~place, -1, this.estimateBefore(run, place), isTabu);
  }

  private weigh(run: number, place: number, option: number, estimate: number, isTabu: boolean): void {
    if (isTabu && estimate >= this.best) {
      if (this.random.below(++this.fallbackSeen) === 0) {
        this.fallbackRun = run;
        this.fallbackPlace = place;
        this.fallbackOption = option;
      }
      return;
    }
    if (estimate > this.chosenEstimate) return;
    if (estimate < this.chosenEstimate) {
      this.chosenEstimate = estimate;
      this.ties = 0;
    }
    if (this.random.below(++this.ties) === 0) {
      this.chosenRun = run;
      this.chosenPlace = place;
      this.chosenOption = option;
    }
  }

  private estimateAfter(run: number, place: number): number {
    const { graph, newHead, newTail } = this;
    const { machineBefore, machineAfter, minutes } = graph;
    const before = machineBefore[run]!;
    let free = before >= 0 ? graph.head[before]! + minutes[before]! : 0;
    for (let r = machineAfter[run]!; ; r = machineAfter[r]!) {
      newHead[r] = Math.max(free, this.routeHead(r));
      free = newHead[r]! + minutes[r]!;
      if (r === place) break;
    }
    newHead[run] = Math.max(free, this.routeHead(run));
    const behind = machineAfter[place]!;
    let way = behind >= 0 ? minutes[behind]! + graph.tail[behind]! : 0;
    newTail[run] = Math.max(way, this.routeTail(run));
    let longest = newHead[run]! + minutes[run]! + newTail[run]!;
    way = minutes[run]! + newTail[run]!;
    for (let r = place; r !== run; r = machineBefore[r]!) {
      newTail[r] = Math.max(way, this.routeTail(r));
      way = minutes[r]! + newTail[r]!;
      if (newHead[r]! + way > longest) longest = newHead[r]! + way;
    }
    return longest;
  }

  private estimateBefore(run: number, place: number): number {
    const { graph, newHead, newTail } = this;
    const { machineBefore, machineAfter, minutes } = graph;
    const behind = machineAfter[run]!;
    let way = behind >= 0 ? minutes[behind]! + graph.tail[behind]! : 0;
    for (let r = machineBefore[run]!; ; r = machineBefore[r]!) {
      newTail[r] = Math.max(way, this.routeTail(r));
      way = minutes[r]! + newTail[r]!;
      if (r === place) break;
    }
    newTail[run] = Math.max(way, this.routeTail(run));
    const before = machineBefore[place]!;
    let free = before >= 0 ? graph.head[before]! + minutes[before]! : 0;
    newHead[run] = Math.max(free, this.routeHead(run));
    let longest = newHead[run]! + minutes[run]! + newTail[run]!;
    free = newHead[run]! + minutes[run]!;
    for (let r = place; r !== run; r = machineAfter[r]!) {
      newHead[r] = Math.max(free, this.routeHead(r));
      free = newHead[r]! + minutes[r]!;
      if (free + newTail[r]! > longest) longest = free + newTail[r]!;
    }
    return longest;
  }

  /**
   * A critical run on another machine, at any place there that surely closes no circle; priced by the longest way
   * through it (Mastrolilli & Gambardella, J. Scheduling 3, 2000).
   */
  private considerMachines(run: number): void {
    const { graph } = this;
    const { shop, head, tail, minutes } = graph;
    const first = shop.optionFirst[run]!;
    if (shop.optionFirst[run + 1]! - first < 2) return;
    const previous = shop.before[run]!;
    const next = shop.after[run]!;
    const from = this.routeHead(run);
    const out = this.routeTail(run);
    const previousHead = previous >= 0 ? head[previous]! : -1;
    const nextTail = next >= 0 ? tail[next]! : -1;
    for (let option = first; option < shop.optionFirst[run + 1]!; option++) {
      const machine = shop.optionMachine[option]!;
      if (machine === graph.machine[run]) continue;
      const cut = shop.optionCut[option]!;
      const isTabu = this.until[slot(run, ~option)]! > this.moves;
      let before = -1;
      let after = graph.firstOn[machine]!;
      for (;;) {
        const isAfterOk = before < 0 || (before !== next && nextTail < minutes[before]! + tail[before]!);
        const isBeforeOk = after < 0 || (after !== previous && previousHead < head[after]! + minutes[after]!);
        if (isAfterOk && isBeforeOk) {
          const free = before < 0 ? 0 : head[before]! + minutes[before]!;
          const way = after < 0 ? 0 : minutes[after]! + tail[after]!;
          const estimate = Math.max(free, from) + cut + Math.max(way, out);
          this.weigh(run, before, option, estimate, isTabu);
        }
        if (after < 0 || !isAfterOk) break;
        before = after;
        after = graph.machineAfter[after]!;
      }
    }
  }

  private reassign(run: number, option: number, place: number): void {
    const { graph } = this;
    this.until[slot(run, ~graph.option[run]!)] = this.moves + this.tenure();
    graph.remove(run);
    graph.setOption(run, option);
    graph.insert(run, place, place >= 0 ? graph.machineAfter[place]! : graph.firstOn[graph.machine[run]!]!);
  }

  private routeHead(run: number): number {
    const { graph } = this;
    const previous = graph.shop.before[run]!;
    if (previous < 0) return graph.shop.release[run]!;
    return Math.max(graph.shop.release[run]!, graph.head[previous]! + graph.minutes[previous]! + graph.shop.lag[run]!);
  }

  private routeTail(run: number): number {
    const { graph } = this;
    const next = graph.shop.after[run]!;
    return next < 0 ? 0 : graph.shop.lag[next]! + graph.minutes[next]! + graph.tail[next]!;
  }

  private apply(run: number, place: number): void {
    const { graph } = this;
    const { machineBefore, machineAfter } = graph;
    const until = this.moves + this.tenure();
    if (place >= 0) {
      for (let r = machineAfter[run]!; ; r = machineAfter[r]!) {
        this.until[slot(run, r)] = until;
        if (r === place) break;
      }
      graph.remove(run);
      graph.insert(run, place, machineAfter[place]!);
    } else {
      const before = ~place;
      for (let r = machineBefore[run]!; ; r = machineBefore[r]!) {
        this.until[slot(r, run)] = until;
        if (r === before) break;
      }
      graph.remove(run);
      graph.insert(run, machineBefore[before]!, before);
    }
  }

  /** Zhang et al. (2007): about 10 + runs per machine, a little at random. */
  private tenure(): number {
    const { count, machines } = this.graph.shop;
    const least = 10 + count / (machines * machines);
    return Math.round(least + this.random.next() * least * 0.4);
  }
}
