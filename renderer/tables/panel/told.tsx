import type { ReactNode } from 'react';
import { Notes } from '../grid';
import css from './panel.module.css';

/** What is wrong with the values of a block, told in it. */
export function Told({ of }: { of: string }): ReactNode {
  return (
    <div className={css.told}>
      <Notes of={of} />
    </div>
  );
}
