import { type ReactNode, useId, useState } from 'react';
import { useStore } from 'zustand';
import type { PlanView } from '../../core/contract';
import { Button } from '../look';
import { useShopStore } from '../tables';
import shared from './compare.module.css';
import { type CompareStore, choiceOf, keyOfRef } from './compare-store';
import css from './comparison.module.css';
import { OWN, type Side } from './pair';
import { planTitle, titleOf } from './words';

interface SideCardProps {
  readonly store: CompareStore;
  readonly side: Side;
  readonly view: PlanView;
  /** It is the one to work by, of the two. */
  readonly isBetter: boolean;
  readonly onOpen: (copy: string) => void;
  readonly onPlan: (copies: readonly string[]) => void;
}

/** One of the two plans, and how to work by it. */
export function SideCard({ store, side, view, isBetter, onOpen, onPlan }: SideCardProps): ReactNode {
  const state = useStore(store);
  const ref = state.compared?.pair[side] ?? OWN;
  const choice = choiceOf(state);
  const isOwn = ref.copy === null && (choice.plans.find(({ id }) => id === view.id)?.current ?? false);
  const refused = state.refusals.get(keyOfRef(ref)) ?? null;
  return (
    <section className={css.card} aria-label={side === 'before' ? 'Plan before' : 'Plan after'} data-better={isBetter}>
      <p>
        {side === 'before' ? 'Before' : 'After'}
        {isBetter && <b>better</b>}
      </p>
      <h2>{titleOf(choice, ref)}</h2>
      {isOwn && <p>{ownText(view, ref.plan !== null)}</p>}
      {ref.copy === null && !isOwn && <BringBack store={store} view={view} isBetter={isBetter} />}
      {ref.copy !== null && (
        <Adopt
          store={store}
          copy={ref.copy}
          name={titleOf(choice, ref)}
          isBetter={isBetter}
          isOutdated={view.outdated}
          onOpen={onOpen}
          onPlan={onPlan}
        />
      )}
      {refused !== null && (
        <div role="alert" className={shared.refused}>
          {refused}
        </div>
      )}
    </section>
  );
}

function ownText(view: PlanView, isNamedAbove: boolean): string {
  const which = isNamedAbove ? 'The plan the shop works by now' : `${planTitle(view)}, the one the shop works by now`;
  return view.outdated ? `${which}; the shop has changed since.` : `${which}.`;
}

/** Afterwards what was worked by stands before, and what is worked by now after. */
function showChange(store: CompareStore): void {
  const own = store.getState().plans?.find((plan) => plan.current);
  if (own !== undefined) store.getState().compare({ before: { copy: null, plan: own.id }, after: OWN });
}

interface TakeProps {
  readonly store: CompareStore;
  readonly isBetter: boolean;
}

function BringBack({ store, view, isBetter }: TakeProps & { readonly view: PlanView }): ReactNode {
  const shop = useShopStore();
  const [withShop, setWithShop] = useState(false);
  const id = useId();

  async function bringBack(): Promise<void> {
    const say = `Brought back ${planTitle(view)}${withShop ? ', with the shop as it was then' : ''}.`;
    const reply = await shop.take('plan.use', { id: view.id, withShop }, say);
    store.getState().refuse({ copy: null, plan: view.id }, reply.ok ? [] : reply.faults);
    if (reply.ok) showChange(store);
  }

  return (
    <div className={shared.actions}>
      <Button rank={isBetter ? 'main' : 'plain'} onClick={() => void bringBack()}>
        Bring this plan back
      </Button>
      <span>
        <input
          id={id}
          type="checkbox"
          checked={withShop}
          onChange={(event) => setWithShop(event.currentTarget.checked)}
        />
        <label htmlFor={id}>with the shop as it was then</label>
      </span>
    </div>
  );
}

interface AdoptProps extends TakeProps {
  readonly copy: string;
  readonly name: string;
  readonly isOutdated: boolean;
  readonly onOpen: (copy: string) => void;
  readonly onPlan: (copies: readonly string[]) => void;
}

function Adopt({ store, copy, name, isBetter, isOutdated, onOpen, onPlan }: AdoptProps): ReactNode {
  const shop = useShopStore();

  async function adopt(): Promise<void> {
    const reply = await shop.take('copy.adopt', { id: copy }, `Adopted “${name}”.`);
    store.getState().refuse({ copy, plan: null }, reply.ok ? [] : reply.faults);
    if (reply.ok) showChange(store);
  }

  return (
    <>
      {isOutdated && <p>Changed since it was planned: plan it again.</p>}
      <div className={shared.actions}>
        {isOutdated && (
          <Button rank="main" onClick={() => onPlan([copy])}>
            Plan
          </Button>
        )}
        <Button
          rank={isBetter ? 'main' : 'plain'}
          title="Makes its changes in the shop, as one change, and its plan the one to work by"
          onClick={() => void adopt()}
        >
          Adopt
        </Button>
        <Button onClick={() => onOpen(copy)}>Open</Button>
      </div>
    </>
  );
}
