import type { ReactNode } from 'react';
import css from './hours.module.css';

/** A part of a row's details under its own name. */
export function Block({ title, children }: { title: string; children: ReactNode }): ReactNode {
  return (
    <section className={css.block} aria-label={title}>
      <h3>{title}</h3>
      {children}
    </section>
  );
}
