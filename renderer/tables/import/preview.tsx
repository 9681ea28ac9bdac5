import { Fragment, type ReactNode, useState } from 'react';
import type { ImportField, ImportReading, ImportRow } from '../../../core/contract';
import { Button, Each } from '../../look';
import css from './import.module.css';

/** Good and bad rows shown from the top; after them only bad ones. */
const FROM_TOP = 50;
/** Bad rows beyond those shown at a time. */
const AT_A_TIME = 200;

interface PreviewProps {
  readonly cells: readonly (readonly string[])[];
  readonly reading: ImportReading;
  readonly onColumns: (columns: readonly (string | null)[]) => void;
}

/** The rows as they were brought, each column under what it is taken as, each bad row over what is wrong with it. */
export function Preview({ cells, reading, onColumns }: PreviewProps): ReactNode {
  const { rows, columns, header } = reading;
  const [more, setMore] = useState(AT_A_TIME);
  const [onlyBad, setOnlyBad] = useState(false);
  const top = onlyBad ? [] : rows.slice(0, FROM_TOP);
  const bad = rows.slice(top.length).filter(({ faults }) => faults.length > 0);
  const shown = [...top, ...bad.slice(0, more)];
  const goodBeyond = rows.length - top.length - bad.length;
  return (
    <>
      <Lacking reading={reading} />
      {rows.some(({ faults }) => faults.length > 0) && (
        <label className={css.onlyBad}>
          <input type="checkbox" checked={onlyBad} onChange={({ target }) => setOnlyBad(target.checked)} />
          Show only bad rows
        </label>
      )}
      {/* Scrolled by keyboard too. */}
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: an area that scrolls must be reached */}
      <section className={css.scroll} aria-label="Rows to import" tabIndex={0}>
        <table className={css.preview}>
          <thead>
            <tr>
              <th scope="col">Row</th>
              <Each
                of={columns}
                draw={(_, at) => (
                  <th scope="col">
                    <ColumnChoice
                      at={at}
                      head={header ? (cells[0]?.[at] ?? '') : ''}
                      reading={reading}
                      onColumns={onColumns}
                    />
                    {header && <small>{cells[0]?.[at]}</small>}
                  </th>
                )}
              />
            </tr>
          </thead>
          <tbody>
            {shown.map((row) => (
              <PreviewRow key={row.row} row={row} cells={cells[row.row - 1] ?? []} columns={columns} />
            ))}
          </tbody>
        </table>
      </section>
      {(goodBeyond > 0 || bad.length > more) && (
        <p className={css.soft}>
          {goodBeyond > 0 && `${goodBeyond} more good rows. `}
          {bad.length > more && `${bad.length - more} more bad rows. `}
          {bad.length > more && (
            <Button onClick={() => setMore(more + AT_A_TIME)}>Show {AT_A_TIME} more bad rows</Button>
          )}
        </p>
      )}
    </>
  );
}

interface PreviewRowProps {
  readonly row: ImportRow;
  readonly cells: readonly string[];
  readonly columns: ImportReading['columns'];
}

function PreviewRow({ row, cells, columns }: PreviewRowProps): ReactNode {
  const bad = row.faults.length > 0;
  return (
    <Fragment>
      <tr data-bad={bad || undefined}>
        <th scope="row">{row.row}</th>
        <Each of={columns} draw={(field, at) => <td data-out={field === null || undefined}>{cells[at]}</td>} />
      </tr>
      {bad && (
        <tr className={css.faults}>
          <td />
          <td colSpan={Math.max(1, columns.length)}>
            {row.faults.map((say) => (
              <p key={say}>
                <b>Bad</b> {say}
              </p>
            ))}
          </td>
        </tr>
      )}
    </Fragment>
  );
}

interface ColumnChoiceProps {
  readonly at: number;
  readonly head: string;
  readonly reading: ImportReading;
  readonly onColumns: (columns: readonly (string | null)[]) => void;
}

/** What a column is taken as. A field that another column was is taken from it: no field comes twice. */
function ColumnChoice({ at, head, reading, onColumns }: ColumnChoiceProps): ReactNode {
  const { columns, fields } = reading;
  return (
    <select
      aria-label={head === '' ? `Column ${at + 1} is` : `Column ${at + 1}, ${head}, is`}
      value={columns[at] ?? ''}
      data-out={columns[at] === null || undefined}
      onChange={({ target }) => {
        const field = target.value === '' ? null : target.value;
        onColumns(columns.map((other, i) => (i === at ? field : other === field ? null : other)));
      }}
    >
      <option value="">left out</option>
      {fields.map((one) => (
        <option key={one.field} value={one.field}>
          {one.label}
        </option>
      ))}
    </select>
  );
}

/** Said once, where all new rows lack the same. */
function Lacking({ reading }: { reading: ImportReading }): ReactNode {
  const { fields, columns, rows } = reading;
  if (rows.every(({ replaces }) => replaces)) return null;
  const lacking = fields.filter(({ field, needed }) => needed && !columns.includes(field));
  if (lacking.length === 0) return null;
  return (
    <p className={css.wrong}>
      No column is taken as {listed(lacking)}, which new rows need. Choose it above its column.
    </p>
  );
}

function listed(fields: readonly ImportField[]): string {
  const names = fields.map(({ label }) => label);
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
}
