import type { ReactNode } from 'react';
import type { SheetPage, SheetRow } from '../../core/contract';
import { Each } from '../look';
import { Heads, PlaceCell, partsText, timeText, Widths } from './cells';
import css from './table.module.css';

const HEADS = [
  'No.',
  'Pallet',
  'From, to',
  'Job, operation',
  'Program',
  'Measure, correction',
  'Tool left',
  'If it stops',
  'What happened',
];

/** The last column is left 53 mm on A4 and 35 mm on Letter to be written in. */
const WIDTHS = [12, 26, 31, 48, 18, 49, 18, 22, null];

/** What one machine runs. */
export function MachineTable({ head, page }: { head: ReactNode; page: SheetPage }): ReactNode {
  return (
    <table className={css.table}>
      <Widths of={WIDTHS} />
      <Heads title={head} heads={HEADS} />
      <tbody>
        <Each of={page.rows} draw={(row) => <MachineRow row={row} />} />
      </tbody>
    </table>
  );
}

function MachineRow({ row }: { row: SheetRow }): ReactNode {
  const names = [row.jobName, row.operationName].filter((name) => name !== '');
  return (
    <tr>
      <PlaceCell row={row} />
      <td>
        <b className={css.pallet}>{row.pallet ?? 'none'}</b>
        <span className={css.line}>{partsText(row)}</span>
        {row.spareBlanks > 0 && <span className={css.line}>{row.spareBlanks} spare</span>}
      </td>
      <td>
        <b className={css.start}>{timeText(row.start)}</b>
        <span className={css.end}>to {timeText(row.end)}</span>
      </td>
      <td>
        <b className={css.line}>
          {row.job} op {row.operation}
        </b>
        <span className={css.line}>{names.join(', ')}</span>
      </td>
      <td>
        <b className={css.line}>{row.program}</b>
        {row.revision !== '' && <b className={css.line}>rev. {row.revision}</b>}
      </td>
      <td>
        <b className={css.line}>{row.measure}</b>
        <span className={css.line}>{row.correction}</span>
      </td>
      <td>
        {row.tool !== null && (
          <>
            <b className={css.line}>{row.tool.id}</b>
            <span className={css.line}>{row.tool.minutes} min</span>
          </>
        )}
      </td>
      <td>
        <b className={css.line}>{row.ifStops}</b>
      </td>
      <td />
    </tr>
  );
}
