import type { ReactNode } from 'react';
import { moveBetweenRows } from '../grid/move';
import css from './panel.module.css';

/** Blocks of values side by side under a row. Fields are underlined in it, so that they differ from what follows from them. */
export function Panel(props: { label?: string; paired?: boolean; children: ReactNode }): ReactNode {
  return (
    <section className={css.panel} aria-label={props.label} data-paired={props.paired || undefined}>
      {props.children}
    </section>
  );
}

/** Values in a line of text, with their units. */
export function Line({ children }: { children: ReactNode }): ReactNode {
  return <div className={css.line}>{children}</div>;
}

/** Pixels between two columns, as in the style sheet. */
const COLUMN_GAP = 8;

/** A small table of values: heads with their units, then the rows. */
export function Figures(props: {
  readonly label: string;
  /** Widths of its columns in pixels; what is longer is cut off with an ellipsis. */
  readonly widths: readonly number[];
  readonly children: ReactNode;
}): ReactNode {
  const width = props.widths.reduce((sum, column) => sum + column + COLUMN_GAP, COLUMN_GAP);
  return (
    <table className={css.figures} style={{ width }} aria-label={props.label} onKeyDown={moveBetweenRows}>
      <colgroup>
        {props.widths.map((width, at) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a column is told by its place
          <col key={at} style={{ width }} />
        ))}
      </colgroup>
      {props.children}
    </table>
  );
}

/** The head of a column of {@link Figures}. */
export function Head(props: { readonly say: string; readonly unit?: string; readonly align?: 'end' }): ReactNode {
  return (
    <th scope="col" data-align={props.align}>
      {props.say}
      {props.unit !== undefined && <small>{props.unit}</small>}
    </th>
  );
}

/** A name beside figures, and what it stands for. */
export function Named({ id, name }: { id: string; name: string }): ReactNode {
  return (
    <span className={css.named} title={name === '' ? id : `${id} ${name}`}>
      {id}
      {name !== '' && <span className={css.meaning}>{name}</span>}
    </span>
  );
}
