import type { Shop } from '../../core/shop';
import { Button } from '../look';
import lists from '../look/lists.module.css';
import type { PlanIndex, Selection } from '../timeline';
import styles from './desk.module.css';
import { type DeskStore, locking, refusalOf } from './desk-store';
import { lockWords } from './lock-controls';
import { lockOf, noLock } from './locks';
import { Refusal } from './refusal';
import { useDesk } from './use-desk';

interface LockedListProps {
  readonly desk: DeskStore;
  readonly index: PlanIndex;
  readonly shop: Shop;
  readonly disabled: boolean;
  onSelect(selection: Selection): void;
}

/** Every lock put by hand, those that can't be kept first, with the reason. */
export function LockedList({ desk, index, shop, disabled, onSelect }: LockedListProps) {
  const state = useDesk(desk, (all) => all);
  const why = new Map(index.view.plan.conflicts.map(({ run, say }) => [run, say]));
  const locks = shop.floor.flatMap(({ run }) => lockOf(shop, run) ?? []);
  locks.sort((a, b) => Number(why.has(b.run)) - Number(why.has(a.run)));
  if (locks.length === 0) {
    return (
      <p className={lists.none}>
        Nothing is locked. Drag a run to where it shall be, or select it and tick what a plan may no longer change.
      </p>
    );
  }
  return (
    <>
      <ul className={lists.list}>
        {locks.map((lock) => (
          <li key={lock.run} data-bad={why.has(lock.run)}>
            <h3>{lock.run}</h3>
            <p>{lockWords(index, lock)}</p>
            {why.has(lock.run) && <p className={styles.bad}>Can’t hold: {why.get(lock.run)}</p>}
            {index.runs.has(lock.run) && (
              <Button onClick={() => onSelect({ kind: 'run', run: lock.run })}>Show the run</Button>
            )}
            <Button
              disabled={disabled}
              aria-label={`Unlock ${lock.run}`}
              onClick={() => void desk.getState().apply(locking(noLock(lock.run)))}
            >
              Unlock it
            </Button>
            <Refusal say={refusalOf(state, lock.run)} />
          </li>
        ))}
      </ul>
      {locks.length > 1 && (
        <p className={styles.foot}>
          <Button
            disabled={disabled}
            onClick={() => void desk.getState().apply(locking(...locks.map(({ run }) => noLock(run))))}
          >
            Unlock all {locks.length}
          </Button>
        </p>
      )}
    </>
  );
}
