import { type Machine, type Plan, type RunNeed, runsOf, type Shop, type ToolCare } from '../shop';
import { type Interval, intersect, type Minute, minuteOf, type Stretch, subtract, union } from '../time';
import { nightsOf, openTimes, type Presence, presencesOf, windowOf } from './presence';
import { type Attended, type RunSpans, spansOf } from './spans';
import { fullTimes } from './sweep';
import { type Walks, walksOf } from './walks';

/** A plan and its shop, looked up and sorted once for everything that is said about them. */
export interface PlanReading {
  readonly shop: Shop;
  readonly plan: Plan;
  readonly window: Interval;
  readonly walks: Walks;
  readonly presences: readonly Presence[];
  readonly stretches: readonly Stretch[];
  readonly tonight: Stretch | null;
  /** In order of `on`. */
  readonly runs: readonly RunSpans[];
  readonly runOf: ReadonlyMap<string, RunSpans>;
  readonly machines: ReadonlyMap<string, MachineReading>;
  /** Every run the jobs call for, by `jobKey` of its job and step, in order of number. */
  readonly needs: ReadonlyMap<string, readonly RunNeed[]>;
  /** When runs not in the plan were taken off, by run. */
  readonly done: ReadonlyMap<string, Minute>;
  /** Why runs were left out, by run. */
  readonly left: ReadonlyMap<string, string>;
  readonly onPallet: ReadonlyMap<string, readonly RunSpans[]>;
  /** When all places a machine loads into are held, by `storeOf`; none where there is no limit or no store. */
  readonly placesFull: ReadonlyMap<string, readonly Interval[]>;
  readonly runsInStore: ReadonlyMap<string, readonly RunSpans[]>;
}

export interface MachineReading {
  readonly machine: Machine;
  /** In order of `on`. */
  readonly runs: readonly RunSpans[];
  /** Attendances to its tools, in order of start. */
  readonly care: readonly (ToolCare & Attended)[];
  /** When it may run. */
  readonly open: readonly Interval[];
  /** Three that make up the window and share no minute. */
  readonly cutting: readonly Interval[];
  readonly hand: readonly Interval[];
  readonly idle: readonly Interval[];
}

/** Names the pallet store a machine loads into: its cell's or its own. */
export function storeOf(machine: Machine): string {
  return machine.cell === null ? `machine ${machine.id}` : `cell ${machine.cell}`;
}

/** Names one step of one job. */
export function stepKey(job: string, step: number): string {
  return `${job}/${step}`;
}

/** Places in the machine's store, or null without limit. A table or a bench has none: it is busy instead. */
export function placesOf(shop: Shop, machine: Machine): number | null {
  if (machine.cell !== null) return shop.cells.find((c) => c.id === machine.cell)?.places ?? null;
  return machine.kind === 'bench' || machine.places === 0 ? null : machine.places;
}

/**
 * Reads a plan against the shop it was made for. Throws a RangeError if the plan names a run or machine the shop does
 * not have: such a plan belongs before the referee first.
 */
export function readPlan(shop: Shop, plan: Plan): PlanReading {
  const window = windowOf(plan);
  const all = runsOf(shop);
  const runs = spansIn(shop, plan, all);
  const runOf = new Map(runs.map((run) => [run.need.id, run]));
  const presences = presencesOf(shop, plan);
  const runsInStore = groupBy(runs, (run) => storeOf(run.machine));
  return {
    shop,
    plan,
    window,
    walks: walksOf(shop),
    presences,
    ...nightsOf(presences, plan),
    runs,
    runOf,
    machines: machinesIn(shop, plan, runs),
    needs: groupBy(all, (need) => stepKey(need.job.id, need.step)),
    done: doneIn(shop, plan),
    left: new Map(plan.left.map(({ run, why }) => [run, why])),
    onPallet: groupBy(
      runs.filter((run) => run.planned.pallet !== null),
      (run) => run.planned.pallet!,
    ),
    placesFull: placesFullIn(shop, runsInStore),
    runsInStore,
  };
}

function spansIn(shop: Shop, plan: Plan, all: readonly RunNeed[]): RunSpans[] {
  const needOf = new Map(all.map((need) => [need.id, need]));
  const machineOf = new Map(shop.machines.map((machine) => [machine.id, machine]));
  const floorOf = new Map(shop.floor.map((entry) => [entry.run, entry]));
  return plan.runs
    .map((planned) => {
      const [need, machine] = [needOf.get(planned.run), machineOf.get(planned.machine)];
      if (need === undefined) throw new RangeError(`The plan has a run ${planned.run} which no job calls for.`);
      if (machine === undefined)
        throw new RangeError(`The plan has a machine ${planned.machine} the shop does not have.`);
      return spansOf(need, planned, machine, floorOf.get(planned.run) ?? null, plan.now);
    })
    .sort((a, b) => a.on - b.on || a.busy.start - b.busy.start);
}

function machinesIn(shop: Shop, plan: Plan, runs: readonly RunSpans[]): Map<string, MachineReading> {
  const window = windowOf(plan);
  const onMachine = groupBy(runs, (run) => run.machine.id);
  return new Map(
    shop.machines.map((machine) => {
      const own = onMachine.get(machine.id) ?? [];
      const care = plan.care
        .filter((one) => one.machine === machine.id)
        .map((one) => ({ ...one, role: 'care' as const }))
        .sort((a, b) => a.start - b.start);
      const cutting = intersect(
        own.flatMap((run) => run.cutting),
        [window],
      );
      const hand = subtract(intersect([...own.flatMap((run) => run.hand), ...care], [window]), cutting);
      const idle = subtract([window], [...cutting, ...hand]);
      return [machine.id, { machine, runs: own, care, open: openTimes(machine, plan), cutting, hand, idle }];
    }),
  );
}

function doneIn(shop: Shop, plan: Plan): Map<string, Minute> {
  return new Map(
    shop.floor
      .filter((entry) => entry.state === 'done')
      .map((entry) => [entry.run, entry.end === null ? plan.now : minuteOf(plan.clock, entry.end)]),
  );
}

function placesFullIn(shop: Shop, runsInStore: ReadonlyMap<string, readonly RunSpans[]>): Map<string, Interval[]> {
  const full = new Map<string, Interval[]>();
  for (const [store, runs] of runsInStore) {
    const places = placesOf(shop, runs[0]!.machine);
    if (places === null) continue;
    const held = runs.map((run) => ({ start: run.on, end: run.off }));
    full.set(store, union(fullTimes(held, places)));
  }
  return full;
}

/** Rows by key, each group in the order given. */
export function groupBy<T>(rows: readonly T[], keyOf: (row: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const row of rows) {
    const key = keyOf(row);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [row]);
    else group.push(row);
  }
  return groups;
}
