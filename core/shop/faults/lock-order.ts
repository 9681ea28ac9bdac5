import type { Fault } from '../fault';
import { type RunNeed, runsBefore } from '../runs';
import type { FloorEntry } from '../schema';
import { type Frame, fault, listed } from './frame';

/** What locks to an order ask for that cannot be so (errors), or that the plan will have to report (warnings). */
export function lockOrderFaults(frame: Frame): Fault[] {
  const { floor } = frame.shop;
  if (floor.every(({ after }) => after === null)) return [];
  const entries = new Map(floor.map((entry) => [entry.run, entry]));
  return floor.flatMap((entry, f) => {
    const { run, state, after } = entry;
    const [need, first] = [frame.runs.get(run), frame.runs.get(after ?? '')];
    // An unknown run is said elsewhere.
    if (after === null || need === undefined || first === undefined) return [];
    const at = ['floor', f, 'after'] as const;
    const error = (code: string, say: string) => [fault(frame, 'error', code, at, say)];
    if (state !== 'locked') {
      return error('order-not-locked', `it is ${state}, and only a locked run can follow another; take the order off.`);
    }
    if (after === run)
      return error('order-itself', 'it cannot follow itself; name another run, or take the order off.');
    if (comesBefore(frame, entries, run, after)) {
      const say = `${after} can only come after it, by its route, its first-piece check or other locks; take one of the orders off.`;
      return error('order-circle', say);
    }
    return apart(need, first, entries, frame).map((say) => fault(frame, 'warning', 'order-apart', at, say));
  });
}

/** Whether a run must be through before another one can begin. */
function comesBefore(frame: Frame, entries: ReadonlyMap<string, FloorEntry>, run: string, other: string): boolean {
  const reached = new Set([other]);
  // A set grows while it is walked: this goes back to everything the other one waits for.
  for (const one of reached) {
    const state = entries.get(one)?.state ?? 'locked';
    if (state === 'locked') for (const before of waitsFor(frame, entries, one)) reached.add(before);
  }
  return reached.has(run);
}

function waitsFor({ runs }: Frame, entries: ReadonlyMap<string, FloorEntry>, id: string): string[] {
  const need = runs.get(id);
  if (need === undefined) return [];
  const { job, operation, number } = need;
  const after = entries.get(id)?.after ?? null;
  return [
    ...(after === null ? [] : [after]),
    ...(operation.firstPiece === null || number === 1 ? [] : [`${job.id}/${operation.id}/1`]),
    ...runsBefore(need),
  ];
}

/** A sentence where the two have no machine in common. */
function apart(run: RunNeed, first: RunNeed, entries: ReadonlyMap<string, FloorEntry>, frame: Frame): string[] {
  const [ours, theirs] = [machinesOf(run, entries, frame), machinesOf(first, entries, frame)];
  if (ours === null || theirs === null || ours.some((id) => theirs.includes(id))) return [];
  const where = (names: readonly string[]) => (names.length === 0 ? 'no machine in use' : listed(names, 'or'));
  return [
    `it can go on ${where(ours)} and ${first.id} on ${where(theirs)}, so it cannot follow on the same machine and is reported; ` +
      'take the order off, or lock both to one machine that both can go on.',
  ];
}

/** Null where it is done and nobody wrote down on what. */
function machinesOf({ id, operation }: RunNeed, entries: ReadonlyMap<string, FloorEntry>, frame: Frame) {
  const entry = entries.get(id);
  if (entry !== undefined && entry.machine !== null) return [entry.machine];
  if (entry?.state === 'done') return null;
  return operation.machines.map(({ machine }) => machine).filter((machine) => frame.machines.get(machine)?.inUse);
}
