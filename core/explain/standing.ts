import {
  isBench,
  isTable,
  type MachineReading,
  operationName,
  type PlanReading,
  type RunSpans,
  touching,
} from '../measure';
import { type Interval, intersect } from '../time';
import type { Piece } from './piece';
import { whyNotAlone } from './trust';
import { atText } from './words';

/** Time in which a machine may stand with work in it, and why. */
export type Standing = Piece;

/** All such times of a machine; they may overlap each other and its cutting, and the earlier in the list counts. */
export function standingsOf(reading: PlanReading, machine: MachineReading): Standing[] {
  return machine.runs
    .flatMap((run) => [...heldFor(run), ...(isTable(machine.machine) ? onTable(reading, run) : inStore(reading, run))])
    .filter((standing) => standing.end > standing.start);
}

function heldFor(run: RunSpans): Standing[] {
  if (run.hold === null) return [];
  return [standing(run.hold, () => `${operationName(run.need)} is held for its first-piece check`)];
}

function onTable(reading: PlanReading, run: RunSpans): Standing[] {
  const { start, end, unload } = run.planned;
  const waiting = unload === null ? end : unload.start;
  return [
    ...startsLater(reading, run, { start: run.planned.load?.end ?? run.on, end: start }),
    standing({ start: end, end: waiting }, () => `${operationName(run.need)} is finished and waits on the table`),
  ];
}

function inStore(reading: PlanReading, run: RunSpans): Standing[] {
  if (isBench(run.machine)) return [];
  const { load, start, pallet } = run.planned;
  const name = operationName(run.need);
  const loading = load === null ? [] : [standing(load, () => `${pallet ?? name} is being loaded for ${name}`)];
  return [...loading, ...startsLater(reading, run, { start: load?.end ?? run.on, end: start })];
}

/** Loaded, and not begun. */
function startsLater(reading: PlanReading, run: RunSpans, waiting: Interval): Standing[] {
  const name = operationName(run.need);
  const { clock } = reading.plan;
  const first = reading.runOf.get(`${run.need.job.id}/${run.need.operation.id}/1`);
  const checked = first?.planned.check?.end;
  if (run.need.number > 1 && checked !== undefined && checked > waiting.start) {
    return [standing(waiting, () => `${name} is loaded and waits for the first-piece check of its first run`)];
  }
  const start = run.planned.start;
  if (run.hold !== null && run.hold.start === run.hold.end) {
    const because = () => `${name} is loaded and begins in time for a hand to check its first piece`;
    return [standing(waiting, because)];
  }
  const machine = reading.machines.get(run.machine.id)!;
  const untrusted = intersect(machine.idle, [waiting]).flatMap((idle) =>
    touching(reading.stretches, idle).flatMap((stretch): Standing[] => {
      const [since, until] = [Math.max(idle.start, stretch.start), Math.min(idle.end, stretch.end)];
      const why = whyNotAlone(reading, machine, run.need, since);
      return why === null
        ? []
        : [standing({ start: since, end: until }, () => `${run.planned.pallet ?? 'it'} is loaded, but ${why}`)];
    }),
  );
  const firstCut = run.cutting[0]!.end - run.cutting[0]!.start;
  const tooLate = touching(machine.open, waiting).flatMap((open): Standing[] => {
    const since = Math.max(open.start, waiting.start, open.end - firstCut + 1);
    const because = () => `${name} is loaded but does not fit before ${atText(clock, open.end, waiting.start)}`;
    return open.end < start ? [{ start: since, end: open.end, reason: 'off', because, until: start }] : [];
  });
  return [
    ...tooLate,
    ...untrusted,
    standing(waiting, () => `${name} is loaded and is to start at ${atText(clock, start, waiting.start)}`),
  ];
}

function standing({ start, end }: Interval, because: () => string): Standing {
  return { start, end, reason: 'hand', because };
}
