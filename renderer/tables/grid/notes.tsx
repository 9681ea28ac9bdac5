import type { ReactNode } from 'react';
import { useShallow } from 'zustand/react/shallow';
import { faultsWithin, useShopState, useShopStore, within } from '../store';
import css from './notes.module.css';

interface NotesProps {
  /** What the notes are about. */
  readonly of: string;
  /** Parts that show their own notes. */
  readonly except?: readonly string[];
  /** Only about the whole, not about what is in it. */
  readonly alone?: boolean;
}

/** Refused edits and faults, a sentence each; nothing where there are none. */
export function Notes({ of, except = [], alone = false }: NotesProps): ReactNode {
  const store = useShopStore();
  const mine = (key: string): boolean =>
    (alone ? key === of : within(key, of)) && !except.some((part) => within(key, part));
  const refused = useShopState(useShallow((state) => Object.keys(state.refusals).filter(mine)));
  const faults = useShopState(useShallow((state) => faultsWithin(state.view, of).filter(({ key }) => mine(key))));
  if (refused.length === 0 && faults.length === 0) return null;
  return (
    <div className={css.notes} data-alone={alone || undefined}>
      {refused.map((key) => (
        <Refused key={key} at={key} onDrop={() => store.forgive(key)} />
      ))}
      {faults.map(({ key, fault }) => (
        <p key={`${key} ${fault.code} ${fault.say}`} className={css.note} data-level={fault.level}>
          <b>{fault.level === 'error' ? 'Fault' : 'Warning'}</b> {fault.say}
        </p>
      ))}
    </div>
  );
}

function Refused({ at, onDrop }: { at: string; onDrop: () => void }): ReactNode {
  const refusal = useShopState((state) => state.refusals[at]);
  return (
    refusal !== undefined && (
      <p className={css.note} data-level="error" role="alert">
        <b>Not taken</b> {refusal.say}{' '}
        <button type="button" className={css.drop} onClick={onDrop}>
          {refusal.text === null ? 'Close' : 'Take back'}
        </button>
      </p>
    )
  );
}
