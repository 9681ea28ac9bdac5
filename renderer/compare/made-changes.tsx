import type { ReactNode } from 'react';
import type { LoggedChange } from '../../core/contract';
import { showMoment } from '../tables';
import css from './plan-list.module.css';

/** More of them nobody reads; all of them can be undone. */
const SHOWN = 20;

/** What was changed, newest first, and what of it has been undone. */
export function MadeChanges({ changes }: { readonly changes: readonly LoggedChange[] }): ReactNode {
  if (changes.length === 0) return null;
  return (
    <section className={css.changes} aria-label="Changes so far">
      <h2>Changes so far</h2>
      <ol>
        {changes.slice(0, SHOWN).map(({ id, made, say, undone }) => (
          <li key={id} data-undone={undone}>
            <span>{showMoment(made, made)}</span>
            <span>
              {say}
              {undone && ', undone'}
            </span>
          </li>
        ))}
      </ol>
      {changes.length > SHOWN && (
        <p>
          The last {SHOWN} of {changes.length}; each can be undone, the last one first.
        </p>
      )}
    </section>
  );
}
