import type { Graph } from './graph';

/**
 * Estimates of the makespan after a move: the longest way through the runs the move passes, from new ends and ways of
 * these runs while all others keep theirs (Taillard, ORSA J. Computing 6, 1994; Balas & Vazacopoulos, Management Science
 * 44, 1998). The tests for circles are sufficient, not necessary: what they let through is free of them.
 */
export class Estimator {
  private readonly passed: Int32Array;

  constructor(private readonly graph: Graph) {
    this.passed = new Int32Array(graph.nobody);
  }

  /** True if `run` can go behind `place`, now later on its machine: its successor cannot lead there. */
  canGoBehind(run: number, place: number): boolean {
    const { end, way, minutes, routeAfter, nobody } = this.graph;
    const next = routeAfter[run]!;
    if (next === place) return false;
    return next === nobody || way[next]! - minutes[next]! < way[place]! || end[place]! - minutes[place]! < end[next]!;
  }

  /** True if `run` can go ahead of `place`, now earlier on its machine: its predecessor cannot come from there. */
  canGoAhead(run: number, place: number): boolean {
    const { end, way, minutes, routeBefore, nobody } = this.graph;
    const previous = routeBefore[run]!;
    if (previous === place) return false;
    return (
      previous === nobody ||
      end[previous]! - minutes[previous]! < end[place]! ||
      way[place]! - minutes[place]! < way[previous]!
    );
  }

  /** `run` right behind `place`. */
  behind(run: number, place: number): number {
    const { passed, graph } = this;
    const { end, way, machineBefore, machineAfter, minutes, release } = graph;
    const { routeBefore, routeAfter, lagBefore, lagAfter } = graph;
    let free = end[machineBefore[run]!]!;
    for (let r = machineAfter[run]!; ; r = machineAfter[r]!) {
      const off = end[routeBefore[r]!]! + lagBefore[r]!;
      if (off > free) free = off;
      if (release[r]! > free) free = release[r]!;
      free += minutes[r]!;
      passed[r] = free;
      if (r === place) break;
    }
    const off = end[routeBefore[run]!]! + lagBefore[run]!;
    if (off > free) free = off;
    if (release[run]! > free) free = release[run]!;
    let out = way[machineAfter[place]!]!;
    const rest = way[routeAfter[run]!]! + lagAfter[run]!;
    if (rest > out) out = rest;
    out += minutes[run]!;
    let longest = free + out;
    for (let r = place; r !== run; r = machineBefore[r]!) {
      const rest = way[routeAfter[r]!]! + lagAfter[r]!;
      if (rest > out) out = rest;
      if (passed[r]! + out > longest) longest = passed[r]! + out;
      out += minutes[r]!;
    }
    return longest;
  }

  /** `run` right ahead of `place`. */
  ahead(run: number, place: number): number {
    const { passed, graph } = this;
    const { end, way, machineBefore, machineAfter, minutes, release } = graph;
    const { routeBefore, routeAfter, lagBefore, lagAfter } = graph;
    let out = way[machineAfter[run]!]!;
    for (let r = machineBefore[run]!; ; r = machineBefore[r]!) {
      const rest = way[routeAfter[r]!]! + lagAfter[r]!;
      if (rest > out) out = rest;
      out += minutes[r]!;
      passed[r] = out;
      if (r === place) break;
    }
    const rest = way[routeAfter[run]!]! + lagAfter[run]!;
    if (rest > out) out = rest;
    let free = end[machineBefore[place]!]!;
    const off = end[routeBefore[run]!]! + lagBefore[run]!;
    if (off > free) free = off;
    if (release[run]! > free) free = release[run]!;
    free += minutes[run]!;
    let longest = free + out;
    for (let r = place; r !== run; r = machineAfter[r]!) {
      const off = end[routeBefore[r]!]! + lagBefore[r]!;
      if (off > free) free = off;
      if (release[r]! > free) free = release[r]!;
      if (free + passed[r]! > longest) longest = free + passed[r]!;
      free += minutes[r]!;
    }
    return longest;
  }
}
