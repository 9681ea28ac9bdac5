import type { ReactNode } from 'react';
import css from './panel.module.css';

/** What follows from the values entered beside it; nobody can type here. */
export function Follows({ children }: { children: ReactNode }): ReactNode {
  return (
    <p className={css.follows}>
      <span aria-hidden="true">=</span>
      <span>{children}</span>
    </p>
  );
}
