import { minuteOf } from '../../time';
import type { Fault } from '../fault';
import type { Path } from '../place';
import { type RunNeed, runsBefore } from '../runs';
import type { FloorEntry } from '../schema';
import { type Frame, fault, listed } from './frame';
import { lockOrderFaults } from './lock-order';
import { repeated } from './names';

/** What the floor says that cannot be so (errors), or that the plan will have to report as a conflict (warnings). */
export function floorFaults(frame: Frame): Fault[] {
  const { floor } = frame.shop;
  const twice = repeated(floor.map((entry) => entry.run)).map((f) =>
    fault(frame, 'error', 'floor-run-twice', ['floor', f], 'this run is entered twice; keep the entry that is true.'),
  );
  const each = floor.flatMap((entry, f) => {
    const run = frame.runs.get(entry.run);
    if (run === undefined) return [];
    const at = ['floor', f] as const;
    return [...missing(frame, entry, run, at), ...unsuited(frame, entry, run, at), ...times(frame, entry, at)];
  });
  return [...twice, ...each, ...claims(frame), ...order(frame), ...lockOrderFaults(frame)];
}

const isOnMachine = (entry: FloorEntry): boolean => ['loaded', 'running', 'finished'].includes(entry.state);

function missing(frame: Frame, entry: FloorEntry, run: RunNeed, at: Path): Fault[] {
  const found: Fault[] = [];
  const { fixture } = run.operation;
  if (isOnMachine(entry) && entry.machine === null)
    found.push(fault(frame, 'error', 'floor-no-machine', at, `it is ${entry.state}; say on which machine.`));
  if (isOnMachine(entry) && entry.pallet === null && fixture !== null)
    found.push(fault(frame, 'error', 'floor-no-pallet', at, `it is ${entry.state}; say on which pallet.`));
  if (entry.state === 'running' && entry.start === null)
    found.push(fault(frame, 'error', 'floor-no-start', at, 'it is running; say since when.'));
  const holds = [entry.machine, entry.pallet, entry.start, entry.after];
  if (entry.state === 'locked' && holds.every((held) => held === null)) {
    const say = 'it is locked, but to nothing; give machine, pallet, start or order, or remove the entry.';
    found.push(fault(frame, 'warning', 'floor-lock-empty', at, say));
  }
  return found;
}

function unsuited(frame: Frame, entry: FloorEntry, { operation }: RunNeed, at: Path): Fault[] {
  if (entry.state === 'done') return [];
  const found: Fault[] = [];
  const machine = entry.machine === null ? undefined : frame.machines.get(entry.machine);
  const pallet = frame.shop.pallets.find((p) => p.id === entry.pallet);
  if (machine !== undefined && !operation.machines.some((m) => m.machine === machine.id)) {
    const say = `the operation has no cycle for ${machine.id}; add that machine to it, or name one of ${listed(
      operation.machines.map((m) => m.machine),
    )}.`;
    found.push(fault(frame, 'error', 'floor-machine-cannot', [...at, 'machine'], say));
  } else if (machine !== undefined && !machine.inUse) {
    const say = `${machine.id} is not in use; the run stays there and is reported. Set ${machine.id} in use, or move it.`;
    found.push(fault(frame, 'warning', 'floor-not-in-use', [...at, 'machine'], say));
  }
  if (entry.pallet !== null && operation.fixture === null) {
    const say = 'the operation needs no pallet; clear the pallet, or give the operation its fixture.';
    found.push(fault(frame, 'error', 'floor-pallet-needless', [...at, 'pallet'], say));
  } else if (pallet !== undefined && pallet.fixture !== operation.fixture) {
    const say = `${pallet.id} carries ${pallet.fixture}, the operation needs ${operation.fixture}; correct one of the two.`;
    found.push(fault(frame, 'warning', 'floor-pallet-unsuited', [...at, 'pallet'], say));
  } else if (pallet !== undefined && machine !== undefined && !fits(pallet.machines, machine.id)) {
    const say = `${pallet.id} does not fit ${machine.id}; correct one of the two.`;
    found.push(fault(frame, 'warning', 'floor-pallet-unsuited', [...at, 'pallet'], say));
  } else if (pallet !== undefined && !pallet.inUse) {
    found.push(fault(frame, 'warning', 'floor-pallet-withdrawn', [...at, 'pallet'], withdrawn(entry, pallet.id)));
  }
  return found;
}

function withdrawn(entry: FloorEntry, pallet: string): string {
  return entry.state === 'locked'
    ? `${pallet} is withdrawn; the run stays locked to it and is reported. Set ${pallet} in use, or lock it to another.`
    : `${pallet} is withdrawn; the run comes off it as planned, and nothing new goes on. Set ${pallet} in use if that is wrong.`;
}

function fits(machines: readonly string[], machine: string): boolean {
  return machines.length === 0 || machines.includes(machine);
}

function times(frame: Frame, entry: FloorEntry, at: Path): Fault[] {
  const found: Fault[] = [];
  const start = entry.start === null ? null : minuteOf(frame.clock, entry.start);
  const end = entry.end === null ? null : minuteOf(frame.clock, entry.end);
  const over = entry.state === 'finished' || entry.state === 'done';
  if ((entry.state === 'running' || over) && start !== null && start > frame.now) {
    const say = `it is ${entry.state}, yet begins in the future; correct the time or the state.`;
    found.push(fault(frame, 'error', 'floor-start-ahead', [...at, 'start'], say));
  }
  if (over && end !== null && end > frame.now) {
    const say = `it is ${entry.state}, yet ends in the future; correct the time or the state.`;
    found.push(fault(frame, 'error', 'floor-end-ahead', [...at, 'end'], say));
  }
  if (over && start !== null && end !== null && end < start)
    found.push(fault(frame, 'error', 'floor-end-first', [...at, 'end'], 'it ends before it begins; correct one.'));
  if (entry.state === 'locked' && start !== null && start < frame.now) {
    const say = 'it is locked to a time already past; lock it to a later one, or say that it is running.';
    found.push(fault(frame, 'warning', 'floor-lock-past', [...at, 'start'], say));
  }
  return found;
}

/** Two runs that claim one machine, pallet or place. */
function claims(frame: Frame): Fault[] {
  const { floor } = frame.shop;
  const found: Fault[] = [];
  const clash = (code: string, where: (entry: FloorEntry) => string | null, say: (other: string) => string): void => {
    const first = new Map<string, FloorEntry>();
    for (const [f, entry] of floor.entries()) {
      const key = where(entry);
      const other = key === null ? undefined : first.get(key);
      if (key !== null && other === undefined) first.set(key, entry);
      if (other !== undefined && other.run !== entry.run)
        found.push(fault(frame, 'error', code, ['floor', f], say(other.run)));
    }
  };
  clash(
    'floor-two-running',
    (entry) => (entry.state === 'running' ? entry.machine : null),
    (other) => `${other} is running on the same machine; a machine cuts one pallet at a time, so correct one.`,
  );
  clash(
    'floor-pallet-twice',
    (entry) => (isOnMachine(entry) ? entry.pallet : null),
    (other) => `${other} is on the same pallet; a pallet carries one load at a time, so correct one.`,
  );
  return [...found, ...crowded(frame)];
}

/** More pallets in a machine, or in a cell, than it has places; a table counts as one. */
function crowded(frame: Frame): Fault[] {
  const held = new Map<string, number>();
  const found: Fault[] = [];
  for (const [f, entry] of frame.shop.floor.entries()) {
    const machine = isOnMachine(entry) && entry.machine !== null ? frame.machines.get(entry.machine) : undefined;
    if (machine === undefined) continue;
    const cell = frame.shop.cells.find((c) => c.id === machine.cell);
    const places = cell?.places ?? (machine.places === 0 ? 1 : (machine.places ?? Number.POSITIVE_INFINITY));
    const where = cell === undefined ? `machine ${machine.id}` : `cell ${cell.id}`;
    const count = (held.get(where) ?? 0) + 1;
    held.set(where, count);
    if (count === places + 1) {
      const say = `with it ${where} holds more pallets than its ${places} places; correct the floor or the places.`;
      found.push(fault(frame, 'warning', 'floor-crowded', ['floor', f], say));
    }
  }
  return found;
}

/** A run on a machine or done, although parts of it are still in the operation before. */
function order(frame: Frame): Fault[] {
  const states = new Map(frame.shop.floor.map((entry) => [entry.run, entry.state]));
  return frame.shop.floor.flatMap((entry, f) => {
    const run = frame.runs.get(entry.run);
    if (run === undefined || entry.state === 'locked') return [];
    const behind = runsBefore(run).filter((id) => states.get(id) !== 'done');
    if (behind.length === 0) return [];
    const say = `it is ${entry.state}, yet ${listed(behind)} before it is not done; tick off what is done.`;
    return [fault(frame, 'warning', 'floor-order', ['floor', f], say)];
  });
}
