import { NONE, type Problem } from '../problem';

/**
 * No plan is off sooner than this minute: the longest route, and for each machine the one-machine relaxation of the
 * runs that can go nowhere else, with heads, tails and interruption allowed (Carlier, European J. Oper. Res. 11, 1982).
 */
export function earliestFinish(problem: Problem): number {
  const heads = new Int32Array(problem.runCount);
  const tailsAfter = new Int32Array(problem.runCount);
  const order = topological(problem);
  let bound = problem.now;
  for (const run of order) {
    let head = problem.earliest[run]!;
    for (let i = problem.before.start[run]!; i < problem.before.start[run + 1]!; i++) {
      const previous = problem.before.items[i]!;
      head = Math.max(
        head,
        heads[previous]! + shortest(problem, previous) + problem.unload[previous]! + problem.lag[run]!,
      );
    }
    heads[run] = problem.state[run] === 0 ? head + problem.load[run]! : problem.now;
  }
  for (const run of order.toReversed()) {
    let tail = problem.unload[run]!;
    for (let i = problem.after.start[run]!; i < problem.after.start[run + 1]!; i++) {
      const next = problem.after.items[i]!;
      tail = Math.max(
        tail,
        problem.unload[run]! + problem.lag[next]! + problem.load[next]! + shortest(problem, next) + tailsAfter[next]!,
      );
    }
    tailsAfter[run] = tail;
    bound = Math.max(bound, heads[run]! + shortest(problem, run) + tail);
  }
  for (let crew = 0; crew + 1 < problem.crews.start.length; crew++) bound = Math.max(bound, handsFinish(problem, crew));
  for (let machine = 0; machine < problem.machineCount; machine++) {
    const bindsHere = order.filter((run) => onlyMachine(problem, run) === machine);
    bound = Math.max(bound, preemptive(problem, bindsHere, heads, tailsAfter));
  }
  return bound;
}

/** The minute by which a crew, all its people at work whenever they may, has done the attendances only it can do. */
function handsFinish(problem: Problem, crew: number): number {
  let minutes = 0;
  for (let run = 0; run < problem.runCount; run++)
    minutes += problem.state[run] === 0 ? handsBy(problem, run, crew) : 0;
  const { first, start, end } = problem.free;
  const spans: { start: number; end: number }[] = [];
  for (const person of problem.crews.items.subarray(problem.crews.start[crew]!, problem.crews.start[crew + 1]!)) {
    for (let k = first[person]!; k < first[person + 1]!; k++) spans.push({ start: start[k]!, end: end[k]! });
  }
  const edges = [...new Set(spans.flatMap((span) => [span.start, span.end]))].sort((a, b) => a - b);
  for (let i = 0; i + 1 < edges.length && minutes > 0; i++) {
    const there = spans.filter((span) => span.start <= edges[i]! && span.end > edges[i]!).length;
    const most = there * (edges[i + 1]! - edges[i]!);
    if (most >= minutes) return edges[i]! + Math.ceil(minutes / there);
    minutes -= most;
  }
  return minutes > 0 ? problem.horizon : problem.now;
}

/** Minutes of hands a run needs of this crew whatever option it takes; 0 if another crew may do it. */
function handsBy(problem: Problem, run: number, crew: number): number {
  let least = 0x3fffffff;
  for (let o = problem.optionFirst[run]!; o < problem.optionFirst[run + 1]!; o++) {
    if (problem.optionCrew[o] !== crew) return 0;
    const isBench = problem.isBench[problem.optionMachine[o]!] === 1;
    const beside = problem.load[run]! + problem.unload[run]! + problem.checkMinutes[run]!;
    least = Math.min(least, isBench ? problem.optionCut[o]! : beside);
  }
  return least;
}

/** Least minutes still to cut; what is on a machine already may be nearly through. */
function shortest(problem: Problem, run: number): number {
  if (problem.state[run]! > 2) return 0;
  // A bench's minutes hold its loading and unloading, which are counted once more by its neighbours.
  let least = 0x3fffffff;
  for (let o = problem.optionFirst[run]!; o < problem.optionFirst[run + 1]!; o++) {
    const isBench = problem.isBench[problem.optionMachine[o]!] === 1;
    const hands = isBench ? problem.load[run]! + problem.unload[run]! : 0;
    least = Math.min(least, problem.optionCut[o]! - hands);
  }
  return least;
}

function onlyMachine(problem: Problem, run: number): number {
  const first = problem.optionFirst[run]!;
  return problem.optionFirst[run + 1]! - first === 1 ? problem.optionMachine[first]! : NONE;
}

function topological(problem: Problem): number[] {
  const done = new Uint8Array(problem.runCount);
  const order: number[] = [];
  const visit = (run: number): void => {
    if (done[run] === 1) return;
    done[run] = 1;
    for (let i = problem.before.start[run]!; i < problem.before.start[run + 1]!; i++) visit(problem.before.items[i]!);
    order.push(run);
  };
  for (let run = 0; run < problem.runCount; run++) visit(run);
  return order;
}

/** Jackson's preemptive schedule: always the ready run with the longest tail; the latest end plus tail in it. */
function preemptive(problem: Problem, runs: readonly number[], heads: Int32Array, tails: Int32Array): number {
  const waiting = [...runs].sort((a, b) => heads[a]! - heads[b]!);
  const left = new Map(runs.map((run) => [run, shortest(problem, run)]));
  const ready: number[] = [];
  let time = 0;
  let bound = 0;
  let next = 0;
  while (next < waiting.length || ready.length > 0) {
    if (ready.length === 0) time = Math.max(time, heads[waiting[next]!]!);
    while (next < waiting.length && heads[waiting[next]!]! <= time) ready.push(waiting[next++]!);
    let longest = 0;
    for (let i = 1; i < ready.length; i++) if (tails[ready[i]!]! > tails[ready[longest]!]!) longest = i;
    const run = ready[longest]!;
    const until = next < waiting.length ? heads[waiting[next]!]! : 0x3fffffff;
    const worked = Math.min(left.get(run)!, until - time);
    time += worked;
    left.set(run, left.get(run)! - worked);
    if (left.get(run) === 0) {
      ready.splice(longest, 1);
      bound = Math.max(bound, time + tails[run]!);
    }
  }
  return bound;
}
