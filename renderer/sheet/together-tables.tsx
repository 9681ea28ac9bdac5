import type { ReactNode } from 'react';
import type { SheetPage } from '../../core/contract';
import { Each } from '../look';
import { Heads, PlaceCell, partsText, TickCell, timeText, Widths } from './cells';
import css from './table.module.css';

const ORDER = ['No.', 'Pallet', 'From', 'To', 'Machine', 'Job, operation', 'Program', 'If it stops'];
const ROUNDS = ['From', 'At the latest', 'Who', 'Machine', 'What to do', 'Done'];
const CHECKS = ['What', 'By', 'Seen to', 'By whom'];

/** In which order the pallets of several machines run. */
export function OrderTable({ head, page }: { head: ReactNode; page: SheetPage }): ReactNode {
  return (
    <table className={css.table} data-level="true">
      <Widths of={[12, 26, 26, 26, 22, null, 28, 38]} />
      <Heads title={head} heads={ORDER} />
      <tbody>
        <Each
          of={page.rows}
          draw={(row) => (
            <tr>
              <PlaceCell row={row} />
              <td>
                <b className={css.pallet}>{row.pallet ?? 'none'}</b>
              </td>
              <td>
                <b className={css.time}>{timeText(row.start)}</b>
              </td>
              <td className={css.time}>{timeText(row.end)}</td>
              <td>
                <b className={css.time}>{row.machine}</b>
              </td>
              <td>
                <b>
                  {row.job} op {row.operation}
                </b>{' '}
                {[row.jobName, partsText(row)].filter((text) => text !== '').join(', ')}
              </td>
              <td>
                {row.program} {row.revision !== '' && `rev. ${row.revision}`}
              </td>
              <td>{row.ifStops}</td>
            </tr>
          )}
        />
      </tbody>
    </table>
  );
}

/** Who comes when to do what, and how late is too late; the stops of one round belong together. */
export function RoundsTable({ page }: { page: SheetPage }): ReactNode {
  return (
    <table className={css.table} data-level="true">
      <Widths of={[26, 30, 34, 24, null, 16]} />
      <Heads title={<Title say="Rounds" page={page} />} heads={ROUNDS} />
      <Each
        of={page.rounds}
        draw={(round) => (
          <tbody className={css.round}>
            <Each
              of={round.stops}
              draw={(stop) => (
                <tr>
                  <td>
                    <b className={css.time}>{timeText(stop.start)}</b>
                  </td>
                  <td className={css.time}>{timeText(stop.latest)}</td>
                  <td>{stop.person}</td>
                  <td>
                    <b>{stop.machine}</b>
                  </td>
                  <td>{stop.say}</td>
                  <TickCell />
                </tr>
              )}
            />
          </tbody>
        )}
      />
    </table>
  );
}

/** What to see to before the last person leaves. */
export function ChecksTable({ page }: { page: SheetPage }): ReactNode {
  return (
    <table className={css.table} data-level="true">
      <Widths of={[null, 26, 20, 50]} />
      <Heads title={<Title say="Before going home" page={page} />} heads={CHECKS} />
      <tbody>
        <Each
          of={page.checks}
          draw={({ say, by }) => (
            <tr>
              <td>{say}</td>
              <td>{by !== null && <b className={css.time}>{timeText(by)}</b>}</td>
              <TickCell />
              <td />
            </tr>
          )}
        />
      </tbody>
    </table>
  );
}

function Title({ say, page }: { say: string; page: SheetPage }): ReactNode {
  return (
    <h3>
      {say}{' '}
      <span>
        {page.title} {page.name}
      </span>
    </h3>
  );
}
