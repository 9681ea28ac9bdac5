import {
  clip,
  isBench,
  isTable,
  neighbours,
  offOf,
  type PlanReading,
  type RunSpans,
  readyAt,
  stepKey,
  storeOf,
  touching,
  visitsIn,
} from '../measure';
import type { AttendanceRole } from '../shop';
import { coverage, type Interval, intersect, lengthText, type Minute, minuteOf, subtract, union } from '../time';
import type { Hands } from './hands';
import type { Supply } from './supply';
import { whyNotAlone } from './trust';
import { cutOn, handMinutes, machineName, skillFor } from './work';

/** One time in which a run of a route does not go on. */
export interface Wait extends Interval {
  readonly run: RunSpans;
  /** What it waits to begin. */
  readonly before: AttendanceRole | 'start';
}

/** One thing in the way during some of a wait. */
interface Obstacle {
  readonly times: readonly Interval[];
  /** `for M2, behind J-107`. */
  readonly say: string;
}

const DEED: Record<AttendanceRole, string> = {
  load: 'load it',
  check: 'check it',
  work: 'work on it',
  unload: 'take it off',
};

/**
 * The longest wait on the chain of runs that ends with the job's last one, and what was most of the time in its way;
 * null if the job has no run in the plan or its runs follow each other without a wait.
 */
export function longestWait(reading: PlanReading, hands: Hands, supply: Supply, job: string): string | null {
  const wait = longestWaitIn(reading, job);
  if (wait === null) return null;
  const { need } = wait.run;
  const several = reading.needs.get(stepKey(job, need.step))!.length > 1;
  const name = `Op ${need.operation.id}${several ? ` run ${need.number}` : ''}`;
  const obstacles = obstaclesIn(reading, hands, supply, wait).filter((o) => coverage(o.times) > 0);
  const length = lengthText(wait.end - wait.start);
  if (obstacles.length === 0) return `${name} waits ${length}: the plan puts other work first.`;
  const worst = obstacles.reduce((a, b) => (coverage(b.times) > coverage(a.times) ? b : a));
  return `${name} waits ${length} ${worst.say}.`;
}

/** The longest wait on the chain of runs that ends with the job's last one, or null if there is none. */
export function longestWaitIn(reading: PlanReading, job: string): Wait | null {
  const waits = chainOf(reading, job).flatMap((run) => waitsOf(reading, run));
  return waits.length === 0 ? null : waits.reduce((a, b) => (b.end - b.start > a.end - a.start ? b : a));
}

/** The job's last run, the run it had to wait for, and so on back. */
function chainOf(reading: PlanReading, job: string): RunSpans[] {
  const own = reading.runs.filter((run) => run.need.job.id === job);
  if (own.length === 0) return [];
  const chain: RunSpans[] = [];
  let run: RunSpans | undefined = own.reduce((a, b) => (b.off > a.off ? b : a));
  while (run !== undefined) {
    chain.push(run);
    const before: RunSpans[] = neighbours(reading, run.need, -1)
      .filter((need) => Number.isFinite(offOf(reading, need.id)))
      .flatMap((need) => reading.runOf.get(need.id) ?? []);
    run = before.length === 0 ? undefined : before.reduce((a, b) => (b.off > a.off ? b : a));
  }
  return chain;
}

function waitsOf(reading: PlanReading, run: RunSpans): Wait[] {
  const { load, start, end, unload } = run.planned;
  const all: Wait[] = [
    {
      run,
      before: isBench(run.machine) ? 'work' : 'load',
      start: Math.max(readyAt(reading, run.need), reading.window.start),
      end: run.on,
    },
    { run, before: 'start', start: Math.max(load?.end ?? run.on, reading.window.start), end: start },
    ...(run.hold === null ? [] : [{ run, before: 'check' as const, ...run.hold }]),
    ...(unload === null ? [] : [{ run, before: 'unload' as const, start: end, end: unload.start }]),
  ];
  return all.filter((wait) => wait.end > wait.start);
}

/** What may be in the way, that of machines and pallets first: of equals it is the one to name. */
function obstaclesIn(reading: PlanReading, hands: Hands, supply: Supply, wait: Wait): Obstacle[] {
  const { before, run } = wait;
  if (before === 'start') return [machineTaken(reading, wait), machineOff(reading, wait), notAlone(reading, wait)];
  const alone = isTable(run.machine) || isBench(run.machine);
  const machine = alone ? [machineTaken(reading, wait), machineOff(reading, wait)] : [];
  if (before === 'unload') return [...(alone ? [machineOff(reading, wait)] : []), ...handsTaken(reading, hands, wait)];
  if (before === 'check') return handsTaken(reading, hands, wait);
  const places = alone ? [] : [placesTaken(reading, wait)];
  return [
    ...locked(reading, wait),
    ...machine,
    ...places,
    ...palletsTaken(reading, supply, wait),
    notAlone(reading, wait),
    ...handsTaken(reading, hands, wait),
  ];
}

function locked({ plan }: PlanReading, { run, start, end }: Wait): Obstacle[] {
  const lock = run.floor?.start;
  if (run.floor?.state !== 'locked' || lock == null) return [];
  return [{ times: [{ start, end: Math.min(end, minuteOf(plan.clock, lock)) }], say: 'for the start it is locked to' }];
}

function machineTaken(reading: PlanReading, wait: Wait): Obstacle {
  const { machine } = wait.run;
  const { runs, care } = reading.machines.get(machine.id)!;
  const others = runs.filter((run) => run !== wait.run);
  const taken = [...others.map((run) => ({ run, ...run.busy })), ...care.map((one) => ({ ...one, run: null }))];
  return {
    times: clip(union(taken), wait),
    say: `for ${machineName(reading.shop, machine.id)}, ${behind(taken, wait)}`,
  };
}

function machineOff(reading: PlanReading, wait: Wait): Obstacle {
  const { id } = wait.run.machine;
  const closed = subtract([{ start: wait.start, end: wait.end }], reading.machines.get(id)!.open);
  return { times: closed, say: `for ${machineName(reading.shop, id)}, which is planned off` };
}

/** When it could have begun had it been trusted with the night: it was ready, at least to be loaded, when people went. */
function notAlone(reading: PlanReading, wait: Wait): Obstacle {
  const { need, machine } = wait.run;
  const ofMachine = reading.machines.get(machine.id)!;
  const whyAt = (minute: Minute) => whyNotAlone(reading, ofMachine, need, Math.max(minute, wait.start));
  const barred = touching(reading.stretches, wait).flatMap((stretch) => {
    if (stretch.attended || (wait.before !== 'start' && wait.start >= stretch.start)) return [];
    const why = whyAt(stretch.start);
    if (why === null) return [];
    const intoIt = stretch.start - cutOn(need, machine) + 1;
    const from = whyAt(intoIt) === null ? stretch.start : intoIt;
    return [{ start: Math.max(from, wait.start), end: Math.min(stretch.end, wait.end), why }];
  });
  return { times: union(barred), say: `for somebody to be here: ${barred[0]?.why ?? ''}` };
}

function placesTaken(reading: PlanReading, wait: Wait): Obstacle {
  const { machine } = wait.run;
  const store = storeOf(machine);
  const held = othersHeld(reading.runsInStore.get(store) ?? [], wait);
  const name = machine.cell === null ? machineName(reading.shop, machine.id) : `cell ${machine.cell}`;
  return {
    times: clip(reading.placesFull.get(store) ?? [], wait),
    say: `for a place at ${name}, ${behind(held, wait)}`,
  };
}

function palletsTaken(reading: PlanReading, supply: Supply, wait: Wait): Obstacle[] {
  const { machine, need } = wait.run;
  const { fixture } = need.operation;
  if (fixture === null) return [];
  const held = supply.fitting(fixture, machine).flatMap((p) => othersHeld(reading.onPallet.get(p.id) ?? [], wait));
  const free = clip(supply.palletsFree(fixture, machine), wait);
  const times = subtract([{ start: wait.start, end: wait.end }], free);
  return [{ times, say: `for a pallet with fixture ${fixture}, ${behind(held, wait)}` }];
}

function handsTaken(reading: PlanReading, hands: Hands, wait: Wait): Obstacle[] {
  const { run, before, start, end } = wait;
  if (before === 'start') return [];
  const { need, machine, attendances } = run;
  const stop = attendances.find((a) => a.role === before);
  const minutes = stop === undefined ? handMinutes(need, machine) : stop.end - stop.start;
  if (minutes === 0) return [];
  const skill = skillFor(need, machine);
  const able = reading.presences.filter((p) => skill === '' || p.person.skills.includes(skill));
  const here = intersect(
    able.flatMap((p) => p.able),
    [{ start, end }],
  );
  const spot = reading.walks.spotOf(machine, before);
  const free = hands.free(spot, skill, minutes, { start, end });
  const ids = new Set(able.map((p) => p.person.id));
  const visits = visitsIn(reading)
    .filter((visit) => visit.run !== run && ids.has(visit.attended.person))
    .map(({ run: other, attended }) => ({ run: other, start: attended.start, end: attended.end }));
  const deed = `for a hand to ${DEED[before]}`;
  return [
    { times: subtract(here, free), say: `${deed}, ${behind(visits, wait)}` },
    { times: subtract([{ start, end }], here), say: `${deed} while nobody who can is here` },
  ];
}

interface Holder extends Interval {
  /** Null for an attendance to tools. */
  readonly run: RunSpans | null;
}

function othersHeld(runs: readonly RunSpans[], wait: Wait): Holder[] {
  return runs.filter((run) => run !== wait.run).map((run) => ({ run, start: run.on, end: run.off }));
}

/** In the place of a job; no job's id holds a slash. */
const TOOLS = '/tools';

/** `behind J-107`: the job that took most of the wait. */
function behind(holders: readonly Holder[], wait: Wait): string {
  const minutes = new Map<string, number>();
  for (const { run, start, end } of holders) {
    const shared = Math.min(end, wait.end) - Math.max(start, wait.start);
    const name = run === null ? TOOLS : run.need.job.id;
    if (shared > 0) minutes.set(name, (minutes.get(name) ?? 0) + shared);
  }
  const [most] = [...minutes].sort((a, b) => b[1] - a[1]);
  if (most === undefined) return 'behind other work';
  if (most[0] === TOOLS) return 'behind the tools, which somebody sees to';
  return most[0] === wait.run.need.job.id ? 'behind other runs of its own' : `behind ${most[0]}`;
}
