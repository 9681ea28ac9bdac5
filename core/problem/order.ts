import type { FloorEntry, RunNeed, Shop } from '../shop';

/** What locks to an order ask of the runs still to do. */
export interface Orders {
  /** The run that each locked one is to follow on its machine, as far as the two have a machine in common. */
  readonly follows: ReadonlyMap<string, string>;
  /** The machines that suit all runs such locks tie together; runs that are tied to none are not here. */
  readonly machines: ReadonlyMap<string, ReadonlySet<string>>;
  /** Runs locked behind another one with no machine in common: the lock cannot hold. */
  readonly apart: ReadonlyMap<string, string>;
}

/** Runs tied together, and the machines that suit all of them. */
interface Tie {
  readonly runs: string[];
  machines: ReadonlySet<string>;
}

/** Ties one run after the other to the one it is to follow, as long as a machine is left for all that hang together. */
export function ordersOf(shop: Shop, runs: readonly RunNeed[], floor: ReadonlyMap<string, FloorEntry>): Orders {
  const needs = new Map(runs.map((run) => [run.id, run]));
  const inUse = new Set(shop.machines.filter((machine) => machine.inUse).map(({ id }) => id));
  const ties = new Map<string, Tie>();
  const tieOf = (run: string): Tie => {
    const tie = ties.get(run) ?? { runs: [run], machines: machinesFor(needs.get(run)!, floor.get(run), inUse) };
    ties.set(run, tie);
    return tie;
  };
  const follows = new Map<string, string>();
  const apart = new Map<string, string>();
  for (const { run, state, after } of floor.values()) {
    if (state !== 'locked' || after === null || !needs.has(run) || !needs.has(after)) continue;
    const first = floor.get(after);
    // Whatever it was done on, nobody has written it down.
    if (first?.state === 'done' && first.machine === null) continue;
    const [ours, theirs] = [tieOf(run), tieOf(after)];
    const machines = new Set([...ours.machines].filter((id) => theirs.machines.has(id)));
    if (machines.size === 0) {
      apart.set(run, after);
      continue;
    }
    if (first?.state !== 'done') follows.set(run, after);
    theirs.machines = machines;
    if (ours === theirs) continue;
    for (const one of ours.runs) {
      ties.set(one, theirs);
      theirs.runs.push(one);
    }
  }
  const tied = [...ties].filter(([, { runs: together }]) => together.length > 1);
  return { follows, apart, machines: new Map(tied.map(([run, { machines }]) => [run, machines])) };
}

function machinesFor({ operation }: RunNeed, entry: FloorEntry | undefined, inUse: ReadonlySet<string>): Set<string> {
  if (entry !== undefined && entry.machine !== null) return new Set([entry.machine]);
  return new Set(operation.machines.map(({ machine }) => machine).filter((id) => inUse.has(id)));
}
