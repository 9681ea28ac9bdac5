import { cutMinutes, type FloorEntry, type Machine, type Operation, type RunNeed, runsOf, type Shop } from '../shop';
import {
  addDays,
  type Clock,
  clockOn,
  expandHours,
  type Interval,
  localAt,
  minuteOf,
  stretchesOf,
  subtract,
  tonightOf,
} from '../time';
import { type IntervalRows, NONE, type Problem, type Rows, RUNNING } from './problem';

const STATES = { locked: 1, loaded: 2, running: RUNNING, finished: 4 } as const;

/**
 * The problem of planning `shop` as of `at` (local time in its zone). The shop must have no fault of level error; its
 * `planFrom` is not consulted.
 */
export function problemOf(shop: Shop, at: string): Problem {
  const clock = clockOn(shop.zone, at);
  const now = minuteOf(clock, at);
  const horizon = minuteOf(clock, `${addDays(localAt(clock, 0).slice(0, 10), shop.horizonDays)}T00:00`);
  const within = { start: now, end: horizon };

  const machines = machinesOf(shop, clock, within);
  const people = peopleOf(shop, clock, within);
  const runs = runsFor(shop, clock, now);
  // A night that has begun already is as long as it was when it began, so its beginning is looked for a day back.
  const stretches = stretchesOf(presenceOf(shop, clock, { start: -1440, end: horizon }), {
    start: -1440,
    end: horizon,
  });
  const ahead = stretches.filter((s) => s.end > now).map((s) => ({ ...s, start: Math.max(s.start, now) }));
  return {
    shop,
    clock,
    now,
    horizon,
    ...runs,
    ...machines,
    ...people,
    palletCount: shop.pallets.length,
    palletIds: shop.pallets.map((p) => p.id),
    palletReach: Int32Array.from(shop.pallets, (p) => p.machines.length || shop.machines.length),
    jobCount: shop.jobs.length,
    due: Int32Array.from(shop.jobs, (j) => minuteOf(clock, j.due)),
    jobWeight: Float64Array.from(shop.jobs, (j) => j.weight),
    tonight: tonightOf(stretches, now),
    attended: ahead.filter((s) => s.attended),
    unattended: ahead.filter((s) => !s.attended),
  };
}

function indexOf(ids: readonly { readonly id: string }[]): Map<string, number> {
  return new Map(ids.map((row, index) => [row.id, index]));
}

/** Each distinct row once, so that options share rows and the engine can compare them by number. */
class RowTable {
  private readonly rows: number[][] = [];
  private readonly known = new Map<string, number>();

  add(items: number[]): number {
    const key = items.join();
    const found = this.known.get(key);
    if (found !== undefined) return found;
    this.known.set(key, this.rows.length);
    this.rows.push(items);
    return this.rows.length - 1;
  }

  flat(): Rows {
    return flatRows(this.rows);
  }
}

function flatRows(rows: readonly (readonly number[])[]): Rows {
  const start = new Int32Array(rows.length + 1);
  rows.forEach((row, i) => {
    start[i + 1] = start[i]! + row.length;
  });
  return { start, items: Int32Array.from(rows.flat()) };
}

function flatIntervals(owners: readonly (readonly Interval[])[]): IntervalRows {
  const all = owners.flat();
  return {
    first: flatRows(owners.map((o) => o.map(() => 0))).start,
    start: Int32Array.from(all, (i) => i.start),
    end: Int32Array.from(all, (i) => i.end),
  };
}

function spotOf(machine: Machine): string {
  return machine.spot || machine.id;
}

function machinesOf(shop: Shop, clock: Clock, within: Interval) {
  const cells = indexOf(shop.cells);
  const limits = { places: shop.cells.map((c) => c.places), stations: shop.cells.map((c) => c.stations) };
  const machinePlaces: number[] = [];
  const machineStations: number[] = [];
  for (const machine of shop.machines) {
    const cell = machine.cell === null ? undefined : cells.get(machine.cell);
    if (cell !== undefined) {
      machinePlaces.push(cell);
      machineStations.push(cell);
      continue;
    }
    const needsPlace = machine.kind !== 'bench' && machine.places !== null && machine.places > 0;
    machinePlaces.push(needsPlace ? limits.places.push(machine.places ?? 0) - 1 : NONE);
    const hasStation = machine.kind !== 'bench' && machine.places !== 0;
    machineStations.push(hasStation ? limits.stations.push(machine.stations) - 1 : NONE);
  }
  const { spots, walk } = walkingOf(shop);
  return {
    machineCount: shop.machines.length,
    machineIds: shop.machines.map((m) => m.id),
    isBench: Uint8Array.from(shop.machines, (m) => Number(m.kind === 'bench')),
    isTable: Uint8Array.from(shop.machines, (m) => Number(m.kind !== 'bench' && m.cell === null && m.places === 0)),
    open: flatIntervals(shop.machines.map((m) => openHours(m, clock, within))),
    machinePlaces: Int32Array.from(machinePlaces),
    machineStations: Int32Array.from(machineStations),
    placeLimit: Int32Array.from(limits.places),
    stationLimit: Int32Array.from(limits.stations),
    loadSpot: Int32Array.from(shop.machines, (m) => {
      const cell = m.cell === null ? undefined : shop.cells[cells.get(m.cell) ?? NONE];
      return spots.get(cell === undefined ? spotOf(m) : cell.spot || cell.id)!;
    }),
    workSpot: Int32Array.from(shop.machines, (m) => spots.get(spotOf(m))!),
    spotCount: spots.size,
    walk,
  };
}

function openHours(machine: Machine, clock: Clock, within: Interval): Interval[] {
  // What runs now began before `within`; its machine was open then, whatever the pattern says of it.
  const all = machine.hours.length === 0 ? [within] : expandHours(clock, within, machine.hours);
  const closed = machine.closures.map((c) => ({ start: minuteOf(clock, c.from), end: minuteOf(clock, c.to) }));
  return subtract(all, closed);
}

function walkingOf(shop: Shop) {
  const named = [...shop.machines.map(spotOf), ...shop.cells.map((c) => c.spot || c.id)];
  const spots = new Map([...new Set(named)].map((spot, index) => [spot, index]));
  const count = spots.size;
  const walk = new Int32Array(count * count).fill(shop.walking.usual);
  for (let spot = 0; spot < count; spot++) walk[spot * count + spot] = 0;
  for (const { from, to, minutes } of shop.walking.between) {
    const [a, b] = [spots.get(from), spots.get(to)];
    if (a === undefined || b === undefined || a === b) continue;
    walk[a * count + b] = minutes;
    walk[b * count + a] = minutes;
  }
  return { spots, walk };
}

function peopleOf(shop: Shop, clock: Clock, within: Interval) {
  const hours = shop.people.map((p) => expandHours(clock, within, p.hours, p.exceptions));
  const breaks = shop.people.map((p) =>
    expandHours(
      clock,
      within,
      p.breaks.map((b) => ({ ...b, days: ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] })),
    ),
  );
  const extra = shop.people.map((p) =>
    expandHours(
      clock,
      within,
      p.hours.filter((h) => h.extra),
      // A date with its own hours has no weekly extra ones.
      p.exceptions.map((e) => ({ date: e.date, hours: [] })),
    ),
  );
  return {
    personCount: shop.people.length,
    personIds: shop.people.map((p) => p.id),
    free: flatIntervals(hours.map((h, i) => subtract(h, breaks[i]!))),
    extra: flatIntervals(extra),
  };
}

/** When anybody is in the shop, breaks included. */
function presenceOf(shop: Shop, clock: Clock, within: Interval): Interval[] {
  return shop.people.flatMap((p) => expandHours(clock, within, p.hours, p.exceptions));
}

function runsFor(shop: Shop, clock: Clock, now: number) {
  const floor = new Map(shop.floor.map((entry) => [entry.run, entry]));
  const all = runsOf(shop);
  const planned = all.filter((run) => floor.get(run.id)?.state !== 'done');
  const count = planned.length;
  const machineIndex = indexOf(shop.machines);
  const jobIndex = indexOf(shop.jobs);
  const palletIndex = indexOf(shop.pallets);
  const crews = new RowTable();
  const palletSets = new RowTable();
  const groups = new Map<string, number>();
  const groupJob: number[] = [];
  const groupStep: number[] = [];
  const optionFirst = [0];
  const optionMachine: number[] = [];
  const optionCut: number[] = [];
  const optionCrew: number[] = [];
  const optionPallets: number[] = [];
  const isForeign: number[] = [];
  const column = () => new Int32Array(count);
  const [load, unload, holdAfter, checkMinutes, lag, parts] = [
    column(),
    column(),
    column(),
    column(),
    column(),
    column(),
  ];
  const [runJob, runGroup, earliest] = [column(), column(), column()];
  const blank = () => column().fill(NONE);
  const [heldOption, heldPallet, heldStart, heldEnd] = [blank(), blank(), blank(), blank()];
  const state = new Uint8Array(count);

  const crewOf = (operation: Operation, machine: Machine): number => {
    const skill = operation.skill || machine.skill;
    const able = shop.people.flatMap((p, i) => (skill === '' || p.skills.includes(skill) ? [i] : []));
    return crews.add(able);
  };
  const palletsOf = (operation: Operation, machine: Machine): number => {
    if (operation.fixture === null) return NONE;
    const fitting = shop.pallets.flatMap((p, i) =>
      p.fixture === operation.fixture && (p.machines.length === 0 || p.machines.includes(machine.id)) ? [i] : [],
    );
    return palletSets.add(fitting);
  };
  const addOption = (run: RunNeed, machineId: string, cycle: number, foreign = 0): void => {
    const machine = shop.machines[machineIndex.get(machineId) ?? NONE];
    if (machine === undefined) return;
    const hand = machine.kind === 'bench' ? run.operation.load + run.operation.unload : 0;
    optionMachine.push(machineIndex.get(machineId)!);
    optionCut.push(cutMinutes(run, cycle) + hand);
    optionCrew.push(crewOf(run.operation, machine));
    optionPallets.push(palletsOf(run.operation, machine));
    isForeign.push(foreign);
  };

  planned.forEach((run, r) => {
    const { job, operation } = run;
    const entry = floor.get(run.id);
    runJob[r] = jobIndex.get(job.id)!;
    parts[r] = run.parts;
    load[r] = operation.load;
    unload[r] = operation.unload;
    lag[r] = operation.lag;
    earliest[r] = now;
    if (run.step === 0 && job.release !== null) earliest[r] = Math.max(now, minuteOf(clock, job.release));
    if (operation.firstPiece !== null && run.number === 1 && entry?.state !== 'finished') {
      holdAfter[r] = operation.firstPiece.after;
      checkMinutes[r] = operation.firstPiece.minutes;
    }
    for (const choice of operation.machines) {
      if (shop.machines[machineIndex.get(choice.machine) ?? NONE]?.inUse) addOption(run, choice.machine, choice.cycle);
    }
    if (entry !== undefined) hold(r, run, entry);
    optionFirst.push(optionMachine.length);

    const onMachine = entry !== undefined && entry.state !== 'locked';
    const isForeignHere = heldOption[r] !== NONE && isForeign[heldOption[r]!] === 1;
    const key = onMachine || isForeignHere ? run.id : `${job.id}/${operation.id}/${run.parts} parts`;
    if (!groups.has(key)) {
      groups.set(key, groups.size);
      groupJob.push(runJob[r]);
      groupStep.push(run.step);
    }
    runGroup[r] = groups.get(key)!;
  });

  function hold(r: number, run: RunNeed, entry: FloorEntry): void {
    state[r] = entry.state === 'done' ? 0 : STATES[entry.state];
    if (entry.machine !== null) {
      const isNamed = (o: number) => shop.machines[optionMachine[o]!]!.id === entry.machine;
      let option = optionFirst[r]!;
      while (option < optionMachine.length && !isNamed(option)) option++;
      // Locked to a machine the operation does not name: it stays there, at the first machine's cycle, as a conflict.
      if (option === optionMachine.length) addOption(run, entry.machine, run.operation.machines[0]!.cycle, 1);
      if (option < optionMachine.length) heldOption[r] = option;
    }
    if (entry.pallet !== null) heldPallet[r] = palletIndex.get(entry.pallet) ?? NONE;
    if (entry.start !== null) heldStart[r] = minuteOf(clock, entry.start);
    if (entry.end !== null) heldEnd[r] = minuteOf(clock, entry.end);
  }

  const runIndex = new Map(planned.map((run, r) => [run.id, r]));
  const firstPieceRun = blank();
  planned.forEach((run, r) => {
    const first = runIndex.get(`${run.job.id}/${run.operation.id}/1`);
    if (first !== undefined && first !== r && checkMinutes[first]! > 0) firstPieceRun[r] = first;
  });
  const arcs = routeArcs(all, runIndex, floor, clock, now, earliest);
  return {
    runCount: count,
    runIds: planned.map((run) => run.id),
    runJob,
    runGroup,
    runParts: parts,
    optionFirst: Int32Array.from(optionFirst),
    optionMachine: Int32Array.from(optionMachine),
    optionCut: Int32Array.from(optionCut),
    optionCrew: Int32Array.from(optionCrew),
    optionPallets: Int32Array.from(optionPallets),
    isForeign: Uint8Array.from(isForeign),
    load,
    unload,
    holdAfter,
    checkMinutes,
    firstPieceRun,
    earliest,
    lag,
    ...arcs,
    state,
    heldOption,
    heldPallet,
    heldStart,
    heldEnd,
    crews: crews.flat(),
    palletSets: palletSets.flat(),
    groupCount: groups.size,
    groupJob: Int32Array.from(groupJob),
    groupStep: Int32Array.from(groupStep),
  };
}

/** Arcs from each run to the runs of the next step that share parts with it; done ones become earliest times. */
function routeArcs(
  all: readonly RunNeed[],
  runIndex: ReadonlyMap<string, number>,
  floor: ReadonlyMap<string, FloorEntry>,
  clock: Clock,
  now: number,
  earliest: Int32Array,
): { before: Rows; after: Rows } {
  const before: number[][] = Array.from({ length: runIndex.size }, () => []);
  const after: number[][] = Array.from({ length: runIndex.size }, () => []);
  const bySteps = new Map<string, RunNeed[]>();
  for (const run of all) {
    const key = `${run.job.id}/${run.step}`;
    const list = bySteps.get(key);
    if (list === undefined) bySteps.set(key, [run]);
    else list.push(run);
  }
  for (const run of all) {
    const to = runIndex.get(run.id);
    if (to === undefined || run.step === 0) continue;
    const previous = bySteps.get(`${run.job.id}/${run.step - 1}`)!;
    const perPallet = previous[0]!.operation.perPallet;
    const firstRun = Math.floor(run.firstPart / perPallet);
    const lastRun = Math.floor((run.firstPart + run.parts - 1) / perPallet);
    for (const need of previous.slice(firstRun, lastRun + 1)) {
      const from = runIndex.get(need.id);
      if (from !== undefined) {
        before[to]!.push(from);
        after[from]!.push(to);
      } else {
        const end = floor.get(need.id)?.end ?? null;
        const off = end === null ? now : minuteOf(clock, end);
        earliest[to] = Math.max(earliest[to]!, off + run.operation.lag);
      }
    }
  }
  return { before: flatRows(before), after: flatRows(after) };
}
