import type { Lock } from '../../core/contract';
import type { Shop } from '../../core/shop';
import { minuteOf } from '../../core/time';
import { type PlanIndex, whenText } from '../timeline';
import styles from './desk.module.css';
import { type DeskStore, locking, refusalOf } from './desk-store';
import { isOnFloor, lockAsPlanned, lockOf, noLock } from './locks';
import { Refusal } from './refusal';
import { useDesk } from './use-desk';

type Part = Exclude<keyof Lock, 'run'>;

const PARTS: readonly Part[] = ['machine', 'start', 'pallet', 'after'];

interface LockControlsProps {
  readonly desk: DeskStore;
  readonly index: PlanIndex;
  /** As it is now, which may be later than the plan's. */
  readonly shop: Shop;
  readonly run: string;
  readonly disabled: boolean;
}

/** What of a run a plan may no longer change: its machine, its time, its pallet, its place in the order. */
export function LockControls({ desk, index, shop, run, disabled }: LockControlsProps) {
  const refused = useDesk(desk, (state) => refusalOf(state, run));
  const planned = index.runs.get(run);
  if (planned === undefined) return null;
  if (isOnFloor(shop, run)) return <p className={styles.soft}>On the floor already: it stays where it is.</p>;
  const asPlanned = lockAsPlanned(index.view.plan, planned);
  const lock = lockOf(shop, run) ?? noLock(run);
  const put = (part: Part, held: boolean): void => {
    void desk.getState().apply(locking({ ...lock, [part]: held ? asPlanned[part] : null }));
  };
  return (
    <fieldset className={styles.locks} disabled={disabled}>
      <legend>Lock</legend>
      {PARTS.filter((part) => asPlanned[part] !== null || lock[part] !== null).map((part) => (
        <label key={part}>
          <input type="checkbox" checked={lock[part] !== null} onChange={(event) => put(part, event.target.checked)} />
          {partWords(index, part, lock[part] ?? asPlanned[part] ?? '')}
        </label>
      ))}
      <Refusal say={refused} />
    </fieldset>
  );
}

function partWords(index: PlanIndex, part: Part, value: string): string {
  switch (part) {
    case 'machine':
      return `on ${value}`;
    case 'start':
      return `at ${whenText(index, minuteOf(index.clock, value))}`;
    case 'pallet':
      return `with pallet ${value}`;
    case 'after':
      return `after ${value}`;
  }
}

/** `on M2, at Wed 14:20`: what a lock names. */
export function lockWords(index: PlanIndex, lock: Lock): string {
  return PARTS.flatMap((part) => {
    const value = lock[part];
    return value === null ? [] : [partWords(index, part, value)];
  }).join(', ');
}
