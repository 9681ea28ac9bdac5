import type { ReactNode } from 'react';
import type { SheetRow, SheetTime } from '../../core/contract';
import css from './table.module.css';

/** `13:20`, `Tue 06:00`. */
export function timeText({ day, time }: SheetTime): string {
  return day === null ? time : `${day} ${time}`;
}

/** Which one it is of those that wait: white on black where it runs with nobody there. */
export function PlaceCell({ row }: { row: SheetRow }): ReactNode {
  return (
    <td className={css.place} data-alone={row.isAlone} data-runs={row.place === null || undefined}>
      {row.place ?? 'now'}
    </td>
  );
}

/** `4 parts`. */
export function partsText({ parts }: SheetRow): string {
  return parts === 1 ? '1 part' : `${parts} parts`;
}

/** An empty square to be ticked by pen. */
export function TickCell(): ReactNode {
  return (
    <td>
      <span className={css.tick} />
    </td>
  );
}

/** The head of a table, and the heads of its columns; they come again on each page it reaches. */
export function Heads({ title, heads }: { title: ReactNode; heads: readonly string[] }): ReactNode {
  return (
    <thead>
      <tr className={css.title}>
        <td className={css.head} colSpan={heads.length}>
          {title}
        </td>
      </tr>
      <tr>
        {heads.map((head) => (
          <th key={head} scope="col">
            {head}
          </th>
        ))}
      </tr>
    </thead>
  );
}

/** Widths of columns in millimetres; null takes what the paper leaves. */
export function Widths({ of }: { of: readonly (number | null)[] }): ReactNode {
  return (
    <colgroup>
      {of.map((width, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a column is told by its place
        <col key={at} style={width === null ? undefined : { width: `${width}mm` }} />
      ))}
    </colgroup>
  );
}
