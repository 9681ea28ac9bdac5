import type { ReactNode } from 'react';
import { useStore } from 'zustand';
import type { PlanRef, PlanSummary } from '../../core/contract';
import type { PlanCost } from '../../core/shop';
import { showMoment } from '../tables';
import shared from './compare.module.css';
import { type CompareStore, keyOfRef } from './compare-store';
import { NameField } from './name-field';
import { type Pair, type Side, sameRef } from './pair';
import css from './plan-list.module.css';
import { differenceOf } from './verdict';
import { planTitle, signed } from './words';

export interface Choosing {
  readonly store: CompareStore;
  readonly refOf: PlanRef;
  readonly pair: Pair | null;
}

interface PlanRowProps extends Choosing {
  readonly title: string;
  /** Null: there is no plan. */
  readonly cost: PlanCost | null;
  /** The plan its figures are told against, if any. */
  readonly against: PlanCost | null;
  readonly children: ReactNode;
}

/** A plan to choose, with the figures that are compared at a glance. */
export function PlanRow({ cost, against, children, ...choosing }: PlanRowProps): ReactNode {
  return (
    <tr>
      <Choose {...choosing} side="before" disabled={cost === null} />
      <Choose {...choosing} side="after" disabled={cost === null} />
      <th scope="row">{children}</th>
      {GLANCE.map((key) => (
        <td key={key} className={css.figure}>
          {cost === null ? '' : cost[key].toFixed(DECIMALS[key])}
          {cost !== null && against !== null && <Against of={key} cost={cost} against={against} />}
        </td>
      ))}
    </tr>
  );
}

const GLANCE = ['tonight', 'lateness', 'rounds', 'morning'] as const;
type Glance = (typeof GLANCE)[number];
const DECIMALS: Readonly<Record<Glance, number>> = { tonight: 1, lateness: 1, rounds: 0, morning: 0 };

/** Only how much: whether that is better may depend on the night, which may be another one in a copy. */
function Against({ of, cost, against }: { of: Glance; cost: PlanCost; against: PlanCost }): ReactNode {
  const difference = differenceOf(against[of], cost[of]);
  return <small title="against the shop's plan">{difference === 0 ? '=' : signed(difference, DECIMALS[of])}</small>;
}

interface ChooseProps extends Choosing {
  readonly title: string;
  readonly side: Side;
  readonly disabled: boolean;
}

function Choose({ store, refOf, pair, title, side, disabled }: ChooseProps): ReactNode {
  return (
    <td className={css.choose}>
      <input
        type="radio"
        name={`compare-${side}`}
        aria-label={`${title}, ${side}`}
        checked={pair !== null && sameRef(pair[side], refOf)}
        disabled={disabled}
        onChange={() => store.getState().choose(side, refOf)}
      />
    </td>
  );
}

/** A plan of the history, named where it stands. */
export function EarlierRow({ plan, ...choosing }: Choosing & { readonly plan: PlanSummary }): ReactNode {
  const refused = useStore(choosing.store, (state) => state.refusals.get(keyOfRef(choosing.refOf)) ?? null);
  const notes = [
    ...(plan.name === '' ? [] : [`Plan ${plan.id}`]),
    showMoment(plan.made, plan.made),
    ...(plan.current ? ["the shop's plan now"] : []),
    ...(plan.released ? ['released'] : []),
  ];
  return (
    <PlanRow {...choosing} title={planTitle(plan)} cost={plan.cost} against={null}>
      <NameField
        name={plan.name}
        label={`Name of plan ${plan.id}`}
        placeholder={`Plan ${plan.id}`}
        onName={(name) => choosing.store.getState().name(choosing.refOf, name)}
        onForgive={() => choosing.store.getState().refuse(choosing.refOf, [])}
      />
      <p>{notes.join(', ')}</p>
      {refused !== null && (
        <div role="alert" className={shared.refused}>
          {refused}
        </div>
      )}
    </PlanRow>
  );
}
