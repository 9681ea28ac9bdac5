import { isBench, type PlanReading, readyAt } from '../measure';
import { cutMinutes, type Machine, type RunNeed, type Shop } from '../shop';
import { type Minute, minuteOf } from '../time';

/** A run that is not yet on at the plan's moment: work a machine could take. */
export interface Work {
  readonly need: RunNeed;
  /** When the plan puts it on; infinity if it is left out. */
  readonly on: Minute;
  /** Where the plan puts it; null if it is left out. */
  readonly machine: Machine | null;
  /** The earliest it may be on for its release, the step before and the lag. */
  readonly ready: Minute;
  /** The start it is locked to, or null. */
  readonly lockedTo: Minute | null;
}

/** All such work by each machine that is able and allowed to take it, in order of `on`. */
export function workByMachine(reading: PlanReading): Map<string, Work[]> {
  const { shop, plan } = reading;
  const floorOf = new Map(shop.floor.map((entry) => [entry.run, entry]));
  const byMachine = new Map<string, Work[]>(shop.machines.map((machine) => [machine.id, []]));
  for (const need of [...reading.needs.values()].flat()) {
    const floor = floorOf.get(need.id);
    if (floor !== undefined && floor.state !== 'locked') continue;
    const run = reading.runOf.get(need.id);
    const work: Work = {
      need,
      on: run?.on ?? Number.POSITIVE_INFINITY,
      machine: run?.machine ?? null,
      ready: readyAt(reading, need),
      lockedTo: floor?.start == null ? null : minuteOf(plan.clock, floor.start),
    };
    for (const { machine } of need.operation.machines) {
      if ((floor?.machine ?? machine) === machine) byMachine.get(machine)?.push(work);
    }
  }
  for (const works of byMachine.values()) works.sort((a, b) => a.on - b.on);
  return byMachine;
}

/** Minutes a person needs to put the run on this machine: loading, or at a bench the whole work. */
export function handMinutes(need: RunNeed, machine: Machine): number {
  const { load, unload } = need.operation;
  return isBench(machine) ? load + cutOn(need, machine) + unload : load;
}

/** Minutes the run cuts on this machine, which must be one of its operation's. */
export function cutOn(need: RunNeed, machine: Machine): number {
  return cutMinutes(need, need.operation.machines.find((m) => m.machine === machine.id)!.cycle);
}

/** The skill needed to attend to the operation on this machine; empty is none. */
export function skillFor(need: RunNeed, machine: Machine): string {
  return need.operation.skill || machine.skill;
}

/** The name of the machine, or its id where it has none. */
export function machineName(shop: Shop, id: string): string {
  return shop.machines.find((m) => m.id === id)?.name || id;
}
