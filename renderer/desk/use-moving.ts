import { useMemo } from 'react';
import type { DeskChange, Trial as DeskTrial, Lock } from '../../core/contract';
import type { Fault, Shop } from '../../core/shop';
import { localAt, minuteOf } from '../../core/time';
import type { Move, PlanIndex, Trial } from '../timeline';
import { type DeskStore, HAND_SECONDS, locking, refusalOf } from './desk-store';
import { lockOf, noLock } from './locks';
import { useDesk } from './use-desk';

/** Moving runs on the timeline by hand: what the timeline tells of it, and is told. */
export interface Moving {
  onTry(move: Move): void;
  onMove(move: Move): void;
  readonly trial: Trial | null;
}

/**
 * A run that is put somewhere is held there, to its machine and its time; what held it before beside that stays. `refused`
 * hears of a run that was put down and not taken.
 */
export function useMoving(desk: DeskStore, index: PlanIndex, shop: Shop, refused: (run: string) => void): Moving {
  const change = useDesk(desk, (state) => state.change);
  const trial = useDesk(desk, (state) => state.trial);
  const faults = useDesk(desk, (state) => state.faults);
  const hands = useMemo(() => {
    const changeOf = ({ run, machine, start }: Move): DeskChange => {
      const before = lockOf(shop, run) ?? noLock(run);
      return locking({ ...before, machine, start: localAt(index.clock, start) });
    };
    const put = async (move: Move): Promise<void> => {
      const taken = await desk.getState().apply(changeOf(move));
      if (!taken && refusalOf(desk.getState(), move.run) !== null) refused(move.run);
    };
    return {
      onTry: (move: Move) => void desk.getState().try(changeOf(move), HAND_SECONDS),
      onMove: (move: Move) => void put(move),
    };
  }, [desk, index, shop, refused]);
  const shown = useMemo(() => trialOf(index, change, trial, faults), [index, change, trial, faults]);
  return { ...hands, trial: shown };
}

function trialOf(
  index: PlanIndex,
  change: DeskChange | null,
  trial: DeskTrial | null,
  faults: readonly Fault[],
): Trial | null {
  const [lock] = change?.locks ?? [];
  const move = lock === undefined ? null : moveOf(index, lock);
  if (move === null) return null;
  if (faults.length > 0) return { move, legal: false, say: faults.map(({ say }) => say), placed: null };
  if (trial === null) return null;
  const placed = trial.placed.find(({ run }) => run === move.run);
  return {
    move,
    legal: trial.conflicts.length === 0,
    say: trial.conflicts.length === 0 ? trial.say : trial.conflicts.map(({ say }) => say),
    placed:
      placed === undefined
        ? null
        : {
            machine: placed.machine,
            start: minuteOf(index.clock, placed.start),
            end: minuteOf(index.clock, placed.end),
          },
  };
}

function moveOf(index: PlanIndex, { run, machine, start }: Lock): Move | null {
  return machine === null || start === null ? null : { run, machine, start: minuteOf(index.clock, start) };
}
