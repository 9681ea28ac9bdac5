import type { Shop } from '../../core/shop';
import { Button } from '../look';
import type { PlanIndex, Selection } from '../timeline';
import styles from './desk.module.css';
import { type DeskStore, holding, refusalOf } from './desk-store';
import { holdWords } from './hold-controls';
import { freeHold, holdOf } from './holds';
import { Refusal } from './refusal';
import { useDesk } from './use-desk';

interface HeldListProps {
  readonly desk: DeskStore;
  readonly index: PlanIndex;
  readonly shop: Shop;
  readonly disabled: boolean;
  onSelect(selection: Selection): void;
}

/** Every hold put by hand, those that can't be kept first, with the reason. */
export function HeldList({ desk, index, shop, disabled, onSelect }: HeldListProps) {
  const state = useDesk(desk, (all) => all);
  const why = new Map(index.view.plan.conflicts.map(({ run, say }) => [run, say]));
  const holds = shop.floor.flatMap(({ run }) => holdOf(shop, run) ?? []);
  holds.sort((a, b) => Number(why.has(b.run)) - Number(why.has(a.run)));
  if (holds.length === 0) {
    return (
      <p className={styles.none}>
        Nothing is held. Drag a run to where it shall be, or select it and tick what a plan may no longer change.
      </p>
    );
  }
  return (
    <>
      <ul className={styles.list}>
        {holds.map((hold) => (
          <li key={hold.run} data-bad={why.has(hold.run)}>
            <h3>{hold.run}</h3>
            <p>{holdWords(index, hold)}</p>
            {why.has(hold.run) && <p className={styles.bad}>Can’t hold: {why.get(hold.run)}</p>}
            {index.runs.has(hold.run) && (
              <Button onClick={() => onSelect({ kind: 'run', run: hold.run })}>Show the run</Button>
            )}
            <Button
              disabled={disabled}
              aria-label={`Free ${hold.run}`}
              onClick={() => void desk.getState().apply(holding(freeHold(hold.run)))}
            >
              Free it
            </Button>
            <Refusal say={refusalOf(state, hold.run)} />
          </li>
        ))}
      </ul>
      {holds.length > 1 && (
        <p className={styles.foot}>
          <Button
            disabled={disabled}
            onClick={() => void desk.getState().apply(holding(...holds.map(({ run }) => freeHold(run))))}
          >
            Free all {holds.length}
          </Button>
        </p>
      )}
    </>
  );
}
