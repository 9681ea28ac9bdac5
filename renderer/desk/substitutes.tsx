import { useState } from 'react';
import type { Api } from '../../core/contract';
import type { Shop } from '../../core/shop';
import { Button } from '../look';
import type { PlanIndex } from '../timeline';
import styles from './desk.module.css';
import type { DeskStore } from './desk-store';
import { lockOf, noLock } from './locks';
import { useAnswer } from './use-answer';
import { useDesk } from './use-desk';

interface SubstitutesProps {
  readonly api: Api;
  readonly desk: DeskStore;
  readonly index: PlanIndex;
  readonly shop: Shop;
  readonly run: string;
  readonly disabled: boolean;
}

/** Takes the pallet of a run out of use, and puts another that fits in its place. */
export function Substitutes({ api, desk, index, shop, run, disabled }: SubstitutesProps) {
  const [isOpen, setIsOpen] = useState(false);
  const taking = useDesk(desk, (state) => state.taking);
  const { id } = index.view;
  const pallet = index.runs.get(run)?.pallet ?? null;
  const reply = useAnswer(api, 'plan.substitutes', isOpen && pallet !== null ? { id, run } : null);
  if (pallet === null) return null;
  const withdraw = (substitute: string | null): void => {
    const lock = { ...(lockOf(shop, run) ?? noLock(run)), pallet: substitute };
    setIsOpen(false);
    void desk.getState().apply({ locks: substitute === null ? [] : [lock], withdraw: [pallet], rush: null });
  };
  if (!isOpen) {
    return (
      <Button rank="quiet" disabled={disabled || taking} onClick={() => setIsOpen(true)}>
        Withdraw pallet {pallet}
      </Button>
    );
  }
  return (
    <section className={styles.substitutes} aria-label={`In place of pallet ${pallet}`}>
      <h3>
        In place of {pallet}
        <Button rank="quiet" onClick={() => setIsOpen(false)}>
          Keep {pallet}
        </Button>
      </h3>
      {reply?.ok === false && <p className={styles.bad}>{reply.faults.map(({ say }) => say).join(' ')}</p>}
      <ul>
        {reply?.ok === true &&
          reply.value.map((substitute) => (
            <li key={substitute.pallet}>
              <Button
                disabled={disabled || taking || substitute.ready === null}
                onClick={() => withdraw(substitute.pallet)}
              >
                {substitute.pallet}
              </Button>
              <span>{substitute.say}</span>
            </li>
          ))}
        <li>
          <Button disabled={disabled || taking} onClick={() => withdraw(null)}>
            Any
          </Button>
          <span>Withdraw it, and let the plan choose.</span>
        </li>
      </ul>
    </section>
  );
}
