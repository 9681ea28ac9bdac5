import type { ReactNode } from 'react';
import { useStore } from 'zustand';
import type { CopyView, PlanRef, PlanSummary } from '../../core/contract';
import { Button } from '../look';
import { type CompareStore, choiceOf } from './compare-store';
import { CopyRow } from './copy-row';
import { OWN, pairOf } from './pair';
import css from './plan-list.module.css';
import { EarlierRow, PlanRow } from './plan-row';
import { proposedName } from './words';

interface PlanListProps {
  readonly store: CompareStore;
  /** The shop's plan is not of the shop as it now is. */
  readonly outdated: boolean;
  readonly seconds: number;
  readonly onOpen: (copy: string) => void;
  readonly onPlan: (copies: readonly string[]) => void;
}

/** All plans there are, each with its figures: the shop's own, those of its copies, and earlier ones. */
export function PlanList({ store, outdated, seconds, onOpen, onPlan }: PlanListProps): ReactNode {
  const state = useStore(store);
  const { copies, plans } = choiceOf(state);
  const pair = pairOf({ copies, plans }, state.chosen);
  const own = plans.find(({ current }) => current) ?? null;
  const choosing = (ref: PlanRef) => ({ store, refOf: ref, pair });
  return (
    <table className={css.plans}>
      <caption>Choose the two to compare.</caption>
      <thead>
        <tr>
          <th scope="col">Before</th>
          <th scope="col">After</th>
          <th scope="col" className={css.wide}>
            Plan
          </th>
          <th scope="col">
            Tonight <span>h</span>
          </th>
          <th scope="col">
            Late <span>h</span>
          </th>
          <th scope="col">Rounds</th>
          <th scope="col">Cutting on</th>
        </tr>
      </thead>
      <tbody>
        <PlanRow {...choosing(OWN)} title="The shop's plan" cost={own?.cost ?? null} against={null}>
          <strong>The shop's plan</strong>
          <p>{ownText(own, outdated)}</p>
        </PlanRow>
      </tbody>
      <tbody>
        <GroupHead title="What-ifs">
          {copies.length > 1 && (
            <Button
              disabled={state.waiting.size > 0}
              title={`One after the other, up to ${seconds} s each`}
              onClick={() => onPlan(copies.map(({ id }) => id))}
            >
              Plan all
            </Button>
          )}
          <NewCopy store={store} copies={copies} onOpen={onOpen} />
        </GroupHead>
        {copies.length === 0 && (
          <tr>
            <td colSpan={7} className={css.none}>
              None yet. A what-if is a copy of the shop: change something in it, a third operator or two more pallets,
              plan it, and see here what it would bring. The shop stays as it is.
            </td>
          </tr>
        )}
        {copies.map((copy) => (
          <CopyRow
            key={copy.id}
            {...choosing({ copy: copy.id, plan: null })}
            copy={copy}
            against={own?.cost ?? null}
            onOpen={onOpen}
            onPlan={onPlan}
          />
        ))}
      </tbody>
      <tbody>
        <GroupHead title="Plans so far" />
        {plans.length === 0 && (
          <tr>
            <td colSpan={7} className={css.none}>
              None yet. Every plan made is kept here and can be brought back.
            </td>
          </tr>
        )}
        {plans.map((earlier) => (
          <EarlierRow key={earlier.id} {...choosing({ copy: null, plan: earlier.id })} plan={earlier} />
        ))}
      </tbody>
    </table>
  );
}

function ownText(own: PlanSummary | null, outdated: boolean): string {
  if (own === null) return 'None yet. Press Plan on the Plan screen.';
  const made = own.name === '' ? `Plan ${own.id}` : own.name;
  return outdated ? `${made}; the shop has changed since` : made;
}

function GroupHead({ title, children }: { readonly title: string; readonly children?: ReactNode }): ReactNode {
  return (
    <tr>
      <th scope="rowgroup" colSpan={7}>
        <div className={css.group}>
          <h2>{title}</h2>
          {children}
        </div>
      </th>
    </tr>
  );
}

interface NewCopyProps extends Pick<PlanListProps, 'store' | 'onOpen'> {
  readonly copies: readonly CopyView[];
}

function NewCopy({ store, copies, onOpen }: NewCopyProps): ReactNode {
  async function make(): Promise<void> {
    const id = await store.getState().make(proposedName(copies.map(({ name }) => name)));
    if (id !== null) onOpen(id);
  }
  return <Button onClick={() => void make()}>New what-if</Button>;
}
