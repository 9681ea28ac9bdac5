import { cutMinutes, type FloorEntry, type RunNeed, runsOf, type Shop } from '../shop';
import { type Clock, minuteOf } from '../time';
import { routeArcs } from './arcs';
import { Options } from './options';
import { ordersOf } from './order';
import { FINISHED, FREE, LOADED, LOCKED, NO_MINUTE, NONE, RUNNING } from './problem';
import { flatRows, indexOf } from './rows';

/** No limit, in minutes or parts. */
const ENDLESS = 0x3fffffff;

/** Attendances to tools in one plan; far more than people can do. */
const MOST_CARES = 1024;

const STATES = { locked: LOCKED, loaded: LOADED, running: RUNNING, finished: FINISHED, done: FREE } as const;

/** All runs still to do with their options, hand minutes, arcs and what the floor says of them. */
export function runsFor(shop: Shop, clock: Clock, now: number) {
  const floor = new Map(shop.floor.map((entry) => [entry.run, entry]));
  const all = runsOf(shop);
  const planned = all.filter((run) => floor.get(run.id)?.state !== 'done');
  const runIndex = new Map(planned.map((run, r) => [run.id, r]));
  const jobIndex = indexOf(shop.jobs);
  const palletIndex = indexOf(shop.pallets);
  const orders = ordersOf(shop, all, floor);
  const options = new Options(shop);
  const heldOption = planned.map((run) => {
    options.addNamed(run, orders.machines.get(run.id));
    const machine = floor.get(run.id)?.machine ?? null;
    const held = machine === null ? NONE : options.held(run, machine);
    options.close();
    return held;
  });

  const column = (value: (run: RunNeed, r: number) => number) => Int32Array.from(planned, value);
  const held = (value: (entry: FloorEntry) => number, otherwise: number) =>
    column((run) => {
      const entry = floor.get(run.id);
      return entry === undefined ? otherwise : value(entry);
    });
  const minute = (local: string | null) => (local === null ? NO_MINUTE : minuteOf(clock, local));
  const needsCheck = ({ id, number, operation }: RunNeed) =>
    operation.firstPiece !== null && number === 1 && floor.get(id)?.state !== 'finished';
  const earliest = column(({ step, job }) => (step === 0 ? Math.max(now, minute(job.release)) : now));
  const follows = column(({ id }) => runIndex.get(orders.follows.get(id) ?? '') ?? NONE);
  const arcs = routeArcs(all, runIndex, floor, clock, now, earliest);

  const flat = options.flat();
  return {
    runCount: planned.length,
    runIds: planned.map((run) => run.id),
    runJob: column((run) => jobIndex.get(run.job.id)!),
    runParts: column((run) => run.parts),
    shortestCut: column((run) => Math.min(...run.operation.machines.map(({ cycle }) => cutMinutes(run, cycle)))),
    ...flat,
    careCount: flat.tools === null ? 0 : Math.min(MOST_CARES, 2 * planned.length),
    load: column((run) => run.operation.load),
    unload: column((run) => run.operation.unload),
    holdAfter: column((run) => (needsCheck(run) ? run.operation.firstPiece!.after : 0)),
    checkMinutes: column((run) => (needsCheck(run) ? run.operation.firstPiece!.minutes : 0)),
    firstPieceRun: column((run, r) => {
      const first = runIndex.get(`${run.job.id}/${run.operation.id}/1`);
      return first !== undefined && first !== r && needsCheck(planned[first]!) ? first : NONE;
    }),
    earliest,
    lag: column((run) => run.operation.lag),
    suspects: column(({ operation, parts, job }) =>
      job.suspectLimit !== null && operation.checks.length === 0 ? parts : 0,
    ),
    suspectLimit: column(({ job }) => job.suspectLimit ?? ENDLESS),
    block: Float64Array.from(planned, ({ operation }) => operation.odds.block),
    loss: Float64Array.from(planned, ({ operation }) => operation.odds.loss),
    ...arcs,
    follows,
    followers: followersOf(follows),
    apart: new Map(planned.flatMap(({ id }, r) => (orders.apart.has(id) ? [[r, orders.apart.get(id)!]] : []))),
    state: Uint8Array.from(planned, (run) => STATES[floor.get(run.id)?.state ?? 'done']),
    heldOption: Int32Array.from(heldOption),
    heldPallet: held(({ pallet }) => (pallet === null ? NONE : (palletIndex.get(pallet) ?? NONE)), NONE),
    heldStart: held((entry) => minute(entry.start), NO_MINUTE),
    heldEnd: held((entry) => minute(entry.end), NO_MINUTE),
    ...groupsFor(
      planned,
      (run, r) => {
        const state = floor.get(run.id)?.state;
        const isTied = orders.machines.has(run.id);
        return isTied || (state !== undefined && state !== 'locked') || options.isForeign(heldOption[r]!);
      },
      jobIndex,
    ),
  };
}

function followersOf(follows: Int32Array) {
  const rows: number[][] = Array.from(follows, () => []);
  for (const [run, first] of follows.entries()) if (first !== NONE) rows[first]!.push(run);
  return flatRows(rows);
}

/** Runs of one operation of one job with as many parts are one group; a run that is `alone` is a group of its own. */
function groupsFor(
  runs: readonly RunNeed[],
  isAlone: (run: RunNeed, r: number) => boolean,
  jobIndex: ReadonlyMap<string, number>,
) {
  const groups = new Map<string, number>();
  const groupJob: number[] = [];
  const groupStep: number[] = [];
  const runGroup = Int32Array.from(runs, (run, r) => {
    const key = isAlone(run, r) ? run.id : `${run.job.id}/${run.operation.id}/${run.parts} parts`;
    const known = groups.get(key);
    if (known !== undefined) return known;
    groups.set(key, groups.size);
    groupJob.push(jobIndex.get(run.job.id)!);
    groupStep.push(run.step);
    return groups.size - 1;
  });
  return {
    runGroup,
    groupCount: groups.size,
    groupJob: Int32Array.from(groupJob),
    groupStep: Int32Array.from(groupStep),
  };
}
