import type { ReactNode } from 'react';
import { useStore } from 'zustand';
import type { CopyView, PlanProgress } from '../../core/contract';
import type { PlanCost } from '../../core/shop';
import { Button, TwoStepButton } from '../look';
import shared from './compare.module.css';
import { keyOfRef } from './compare-store';
import { NameField } from './name-field';
import css from './plan-list.module.css';
import { type Choosing, PlanRow } from './plan-row';

interface CopyRowProps extends Choosing {
  readonly copy: CopyView;
  /** The shop's plan; null: none yet. */
  readonly against: PlanCost | null;
  readonly onOpen: (copy: string) => void;
  readonly onPlan: (copies: readonly string[]) => void;
}

/** Differences said before the rest is counted. */
const MOST_SAID = 4;

/** A what-if: its name, how it differs, what it would bring, and what can be done with it. */
export function CopyRow({ copy, against, onOpen, onPlan, ...choosing }: CopyRowProps): ReactNode {
  const { store, refOf } = choosing;
  const refused = useStore(store, (state) => state.refusals.get(keyOfRef(refOf)) ?? null);
  const waits = useStore(store, (state) => state.waiting.has(copy.id));
  const progress = useStore(store, (state) => state.progress.get(copy.id) ?? null);
  const isPlanning = copy.planning || waits;
  return (
    <>
      <PlanRow {...choosing} title={copy.name} cost={copy.plan?.cost ?? null} against={against}>
        <NameField
          name={copy.name}
          label={`Name of the what-if ${copy.name}`}
          placeholder="Give it a name"
          onName={(name) => store.getState().name(refOf, name)}
          onForgive={() => store.getState().refuse(refOf, [])}
        />
      </PlanRow>
      <tr className={css.under}>
        <td colSpan={2} />
        <td colSpan={5}>
          <Differences of={copy} />
          {isPlanning ? (
            <Planning copy={copy} progress={progress} onStop={() => void store.getState().stop(copy.id)} />
          ) : (
            <div className={shared.actions}>
              <Button rank="quiet" onClick={() => onOpen(copy.id)}>
                Open
              </Button>
              <Button rank="quiet" onClick={() => onPlan([copy.id])}>
                Plan
              </Button>
              <TwoStepButton
                rank="quiet"
                say="Discard"
                ask={`Discard ${copy.name}? Its file stays among the backups.`}
                yes="Discard it"
                no="Keep it"
                onYes={() => void store.getState().discard(copy.id)}
              />
            </div>
          )}
          {refused !== null && (
            <div role="alert" className={shared.refused}>
              {refused}
            </div>
          )}
        </td>
      </tr>
    </>
  );
}

function Differences({ of: { differences, plan } }: { readonly of: CopyView }): ReactNode {
  const said = differences.length > MOST_SAID + 1 ? differences.slice(0, MOST_SAID) : differences;
  return (
    <>
      {plan?.outdated && <p className={css.mark}>Changed since it was planned: plan it again.</p>}
      {plan === null && <p className={css.mark}>Not planned yet.</p>}
      {differences.length === 0 && <p>Nothing differs from the shop yet. Open it and change something.</p>}
      <ul title={differences.join('\n')}>
        {said.map((difference) => (
          <li key={difference}>{difference}</li>
        ))}
        {said.length < differences.length && <li>and {differences.length - said.length} more</li>}
      </ul>
    </>
  );
}

interface PlanningProps {
  readonly copy: CopyView;
  readonly progress: PlanProgress | null;
  readonly onStop: () => void;
}

function Planning({ copy, progress, onStop }: PlanningProps): ReactNode {
  if (!copy.planning) return <p role="status">Waits to be planned</p>;
  return (
    <div className={shared.actions} role="status">
      <span>Planning</span>
      <progress
        aria-label={`Planning time used for ${copy.name}`}
        max={progress?.limitSeconds ?? 1}
        value={progress?.seconds ?? 0}
      />
      <Button rank="quiet" onClick={onStop}>
        Stop, keep the best
      </Button>
    </div>
  );
}
