import { lengthText } from '../../time';
import type { Fault } from '../fault';
import type { Path } from '../place';
import { isProofKept } from '../proof';
import type { Job, Operation } from '../schema';
import { type Frame, fault } from './frame';

/** Checks that cannot be as they are entered, and what keeps an operation from running alone. */
export function trustFaults(frame: Frame): Fault[] {
  return frame.shop.jobs.flatMap((job, j) =>
    job.route.flatMap((operation, o) => {
      const at = ['jobs', j, 'route', o] as const;
      return [
        ...checkFaults(frame, operation, at),
        ...suspectFaults(frame, job, operation, at),
        ...proofFaults(frame, operation, at),
      ];
    }),
  );
}

function checkFaults(frame: Frame, operation: Operation, at: Path): Fault[] {
  const shortest = operation.machines.reduce((least, m) => (m.cycle < least.cycle ? m : least));
  return operation.checks.flatMap(({ chance, repeat, most }, c) => {
    const place = [...at, 'checks', c, 'repeat'];
    if (repeat > shortest.cycle) {
      const say = `it cuts ${lengthText(repeat)} again, longer than the whole cycle of ${lengthText(shortest.cycle)} on ${shortest.machine}; give only the part of the program that is repeated.`;
      return [fault(frame, 'error', 'repeat-over-cycle', place, say)];
    }
    if (repeat > 0 || chance === 0) return [];
    const times = most === 1 ? 'once' : `${most} times`;
    const say = `the program may go back ${times}, yet takes no time to; give the minutes cut again, or set the chance to 0.`;
    return [fault(frame, 'warning', 'repeat-empty', place, say)];
  });
}

function suspectFaults(frame: Frame, job: Job, operation: Operation, at: Path): Fault[] {
  const parts = Math.min(operation.perPallet, job.quantity);
  const cuts = operation.machines.some(({ machine }) => frame.machines.get(machine)?.kind !== 'bench');
  if (job.suspectLimit === null || parts <= job.suspectLimit || operation.checks.length > 0 || !cuts) return [];
  const say = `its runs are attended only: a pallet carries ${parts} parts, nothing checks them, and ${job.id} allows ${job.suspectLimit} between two checks. To help: add a check, put fewer parts on a pallet, or raise the limit.`;
  return [fault(frame, 'warning', 'suspect-attended', [...at, 'perPallet'], say)];
}

function proofFaults(frame: Frame, operation: Operation, at: Path): Fault[] {
  const { proof, revision, tools } = operation;
  if (proof === null || isProofKept(operation)) return [];
  const isRevised = proof.revision !== null && proof.revision !== revision;
  const named = (ids: readonly string[]): string => (ids.length === 0 ? 'none' : [...new Set(ids)].sort().join(' '));
  const why = isRevised
    ? `it was earned with revision ${proof.revision || 'none'}, and the program now is ${revision || 'none'}`
    : `it was earned with the tools ${named(proof.tools ?? [])}, and the operation now uses ${named(tools.map((use) => use.tool))}`;
  const say = `it counts no more: ${why}. The operation runs attended until it is proven anew; correct ${isRevised ? 'the revision' : 'the tools'} if that is wrong.`;
  return [fault(frame, 'warning', 'proof-lost', [...at, 'proof'], say)];
}
