import type { FloorEntry, Plan, PlanCost, PlannedRun } from '../shop';

/** One broken rule. */
export interface Breach {
  /** Number in RULES.md; 0 for what a plan must say about itself. */
  readonly rule: number;
  /** For tests and programs; people read `say`. */
  readonly code: string;
  /** The runs it is about; empty where it is about the plan as a whole. */
  readonly runs: string[];
  /** One sentence with machine, person, pallet and run, times in the shop's zone. */
  readonly say: string;
}

export interface Verdict {
  /** No breaches; conflicts may remain. */
  readonly legal: boolean;
  readonly breaches: Breach[];
  /** Broken by what the floor holds, and reported by the plan: it cannot do better. */
  readonly conflicts: Breach[];
  /** The plan's cost, worked out anew. */
  readonly cost: PlanCost;
}

/**
 * What may make a conflict of a breach the plan reports: nothing; that the floor holds every culprit; that the floor
 * itself names the machine or the pallet that does not suit; or that the floor asks for what no plan can give.
 */
type Excuse = 'none' | 'held' | 'machine' | 'pallet' | 'floor';

/** A breach before it is known whether the floor is to blame. */
export interface Finding extends Breach {
  readonly excuse: Excuse;
  /** The runs of which at least one would have to move. */
  readonly culprits: readonly string[];
}

export function finding(
  rule: number,
  code: string,
  runs: string[],
  say: string,
  excuse: Excuse = 'none',
  culprits: readonly string[] = runs,
): Finding {
  return { rule, code, runs, say, excuse, culprits };
}

/** On a machine already: it neither waits to be loaded nor can it be put elsewhere. */
export function isBegun(entry: FloorEntry | undefined): boolean {
  return entry?.state === 'running' || entry?.state === 'finished' || entry?.state === 'loaded';
}

/** Its time is fixed by the floor. */
export function isHeld(entry: FloorEntry | undefined): boolean {
  return isBegun(entry) || (entry?.state === 'locked' && entry.start !== null);
}

/** Parts what the plan could have avoided from what the floor forces and the plan reports. */
export function judge(
  plan: Plan,
  floor: ReadonlyMap<string, FloorEntry>,
  findings: readonly Finding[],
): Pick<Verdict, 'legal' | 'breaches' | 'conflicts'> {
  const reported = new Set(plan.conflicts.map((conflict) => conflict.run));
  const planned = new Map(plan.runs.map((run) => [run.run, run]));
  const breaches: Breach[] = [];
  const conflicts: Breach[] = [];
  for (const found of findings) {
    const { rule, code, runs, say } = found;
    const forgiven = runs.some((run) => reported.has(run)) && isForced(found, floor, planned);
    (forgiven ? conflicts : breaches).push({ rule, code, runs, say });
  }
  return { legal: breaches.length === 0, breaches, conflicts };
}

function isForced(
  found: Finding,
  floor: ReadonlyMap<string, FloorEntry>,
  planned: ReadonlyMap<string, PlannedRun>,
): boolean {
  return found.culprits.every((run) => {
    const entry = floor.get(run);
    if (entry === undefined) return false;
    if (found.excuse === 'floor') return true;
    if (found.excuse === 'held') return isHeld(entry);
    if (found.excuse === 'machine') return entry.machine !== null && entry.machine === planned.get(run)?.machine;
    if (found.excuse === 'pallet') {
      return (entry.pallet !== null || isBegun(entry)) && entry.pallet === planned.get(run)?.pallet;
    }
    return false;
  });
}
