import { type ReactNode, useEffect } from 'react';
import { useStore } from 'zustand';
import { Each } from '../look';
import { type PlanStore, SEED, usePlan } from '../plan';
import css from './compare.module.css';
import { type CompareStore, choiceOf } from './compare-store';
import { Comparison } from './comparison';
import { MadeChanges } from './made-changes';
import { PlanList } from './plan-list';

interface CompareScreenProps {
  readonly store: CompareStore;
  /** Of the shop, not of a copy. */
  readonly planStore: PlanStore;
  /** The present moment, local time. */
  readonly present: string;
  /** Goes to work inside a copy. */
  readonly onOpen: (copy: string) => void;
}

/** Which of two plans to work by: the shop's own, those of what-ifs, and all earlier ones. */
export function CompareScreen({ store, planStore, present, onOpen }: CompareScreenProps): ReactNode {
  const compared = useStore(store, (state) => state.compared);
  const faults = useStore(store, (state) => state.faults);
  const changes = useStore(store, (state) => state.changes);
  const isRead = useStore(store, (state) => state.copies !== null);
  const plans = useStore(store, (state) => choiceOf(state).plans.length);
  const outdated = usePlan(planStore, (state) => state.view?.outdated ?? false);
  const seconds = usePlan(planStore, (state) => state.seconds);
  useEffect(() => void store.getState().load(), [store]);
  const onPlan = (copies: readonly string[]): void => void store.getState().plan(copies, { seconds, seed: SEED });
  return (
    <main className={css.screen} aria-label="Compare" aria-busy={!isRead}>
      <div className={css.list}>
        {isRead && <PlanList store={store} outdated={outdated} seconds={seconds} onOpen={onOpen} onPlan={onPlan} />}
        <MadeChanges changes={changes} />
      </div>
      <div className={css.pane}>
        <Each
          of={faults}
          draw={(fault) => (
            <p role="alert" className={css.refused}>
              {fault.say}
            </p>
          )}
        />
        {compared !== null && (
          <Comparison store={store} compared={compared} present={present} onOpen={onOpen} onPlan={onPlan} />
        )}
        {compared === null && faults.length === 0 && (
          <div className={css.empty}>
            <h1>{isRead && plans > 0 ? 'One plan so far' : 'Compare'}</h1>
            <p>{isRead ? emptyText(plans) : 'Reading the plans'}</p>
          </div>
        )}
      </div>
    </main>
  );
}

function emptyText(plans: number): string {
  if (plans === 0) return 'No plan yet. Make one on the Plan screen; the next one can then be compared with it.';
  return 'Change something and plan again, or make a what-if: then two plans stand here beside each other, and what differs.';
}
