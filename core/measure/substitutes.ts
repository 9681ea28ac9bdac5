import { cutMinutes, type Pallet, type Plan, type RunNeed, type Shop } from '../shop';
import { clockText, dayText, type Interval, type Minute } from '../time';
import { type PlanReading, readPlan } from './reading';

/** A pallet that could carry a run in place of its own. */
export interface Substitute {
  readonly pallet: string;
  /** From when it is free for as long as the run stays on: the run's own beginning if it is free then; null is never. */
  readonly ready: Minute | null;
  /** One sentence: when it is free, and what it carries before. */
  readonly say: string;
}

/**
 * The pallets that could carry a run in place of the one it is planned on, best first: in use, with the fixture the
 * operation needs, fitting the machine it is planned on (left out of the plan: any of its operation's). Free for the
 * run's whole stay comes before free later, and what fits fewer machines before what fits more. None for a run that
 * needs no pallet, is on one already or done. Throws a RangeError if no job calls for the run, or the plan is of another shop.
 */
export function substitutesFor(shop: Shop, plan: Plan, run: string): Substitute[] {
  const reading = readPlan(shop, plan);
  const need = [...reading.needs.values()].flat().find(({ id }) => id === run);
  if (need === undefined) throw new RangeError(`No job calls for a run ${run}.`);
  const state = shop.floor.find((entry) => entry.run === run)?.state ?? 'locked';
  const { fixture } = need.operation;
  if (fixture === null || state !== 'locked') return [];
  const stay = stayOf(reading, need);
  const own = reading.runOf.get(run)?.planned.pallet ?? null;
  const machines = machinesFor(reading, need);
  const fits = (pallet: Pallet) => pallet.machines.length === 0 || machines.some((id) => pallet.machines.includes(id));
  const reach = ({ machines: named }: Pallet) => named.length || shop.machines.length;
  return shop.pallets
    .filter((pallet) => pallet.inUse && pallet.id !== own && pallet.fixture === fixture && fits(pallet))
    .sort((a, b) => reach(a) - reach(b))
    .map((pallet) => substituteOn(reading, pallet.id, run, stay))
    .sort((a, b) => (a.ready ?? plan.horizon) - (b.ready ?? plan.horizon));
}

/** When it is on; one that is left out could be on now, for as long as its shortest cut takes with load and unload. */
function stayOf({ runOf, plan }: PlanReading, need: RunNeed): Interval {
  const planned = runOf.get(need.id);
  if (planned !== undefined) return { start: planned.on, end: planned.off };
  const { load, unload, machines } = need.operation;
  const cut = Math.min(...machines.map(({ cycle }) => cutMinutes(need, cycle)));
  return { start: plan.now, end: plan.now + load + cut + unload };
}

function machinesFor({ runOf, shop }: PlanReading, need: RunNeed): string[] {
  const planned = runOf.get(need.id);
  if (planned !== undefined) return [planned.machine.id];
  const inUse = new Set(shop.machines.filter((machine) => machine.inUse).map(({ id }) => id));
  return need.operation.machines.map(({ machine }) => machine).filter((id) => inUse.has(id));
}

/** What a pallet carries, and when; sorted. */
interface Load extends Interval {
  readonly run: string;
}

function loadsOn({ onPallet, shop, plan, left }: PlanReading, pallet: string, but: string): Load[] {
  const planned = (onPallet.get(pallet) ?? [])
    .filter(({ need }) => need.id !== but)
    .map(({ need, on, off }) => ({ run: need.id, start: on, end: off }));
  // What is on it now does not come off by being left out of the plan.
  const stuck = shop.floor
    .filter((entry) => entry.pallet === pallet && entry.state !== 'locked' && left.has(entry.run))
    .map(({ run }) => ({ run, start: plan.now, end: plan.horizon }));
  return [...planned, ...stuck].sort((a, b) => a.start - b.start);
}

function substituteOn(reading: PlanReading, pallet: string, run: string, stay: Interval): Substitute {
  const { plan } = reading;
  const loads = loadsOn(reading, pallet, run);
  const length = stay.end - stay.start;
  let ready = stay.start;
  let carried: Load | null = null;
  for (const load of loads) {
    if (load.end <= ready || load.start >= ready + length) continue;
    carried ??= load;
    ready = load.end;
  }
  const at = (minute: Minute) => `${dayText(plan.clock, minute)} ${clockText(plan.clock, minute)}`;
  if (carried === null) {
    return { pallet, ready, say: `${pallet} is free from ${at(stay.start)} to ${at(stay.end)}, the whole stay.` };
  }
  const taken = `${pallet} carries ${carried.run} until ${at(carried.end)}`;
  if (ready + length > plan.horizon) {
    return { pallet, ready: null, say: `${taken}, and is never free for long enough before ${at(plan.horizon)}.` };
  }
  return { pallet, ready, say: `${taken}; it is free for as long from ${at(ready)}.` };
}
