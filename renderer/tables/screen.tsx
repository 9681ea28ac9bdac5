import type { ReactNode } from 'react';
import css from './screen.module.css';

/** A screen of tables: its name, a line that says where one stands, and what is in it. */
export function TableScreen(props: { title: string; lead: ReactNode; children: ReactNode }): ReactNode {
  return (
    <main className={css.screen} aria-label={props.title}>
      <header className={css.head}>
        <h1>{props.title}</h1>
        <p>{props.lead}</p>
      </header>
      {props.children}
    </main>
  );
}

/** A part of a screen under its own name. */
export function Section(props: { title: string; lead?: ReactNode; children: ReactNode }): ReactNode {
  return (
    <section className={css.section} aria-label={props.title}>
      <h2>{props.title}</h2>
      {props.lead !== undefined && <p>{props.lead}</p>}
      {props.children}
    </section>
  );
}

/** `1 job`, `20 jobs`. */
export function counted(count: number, noun: string, nouns = `${noun}s`): string {
  return `${count} ${count === 1 ? noun : nouns}`;
}
