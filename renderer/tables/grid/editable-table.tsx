import { type ReactNode, useRef, useState } from 'react';
import type { RowOf, TableName } from '../../../core/shop';
import { Button } from '../../look';
import { ImportPanel, TAKES_ROWS, useBringing } from '../import';
import { keyOf, RecordOf, sentences, useShop, useShopState, useShopStore, within } from '../store';
import css from './editable-table.module.css';
import { nextId } from './ids';
import { moveBetweenRows } from './move';
import { NewRow } from './new-row';
import { Notes } from './notes';
import { TableRow } from './table-row';

export interface Column<T extends TableName> {
  readonly id: string;
  readonly head: string;
  /** What the figures are in, said under the head. */
  readonly unit?: string;
  /** Pixels, or a share of the table; columns without share what is left. */
  readonly width?: number | `${number}%`;
  readonly align?: 'end';
  readonly draw: (row: RowOf<T>) => ReactNode;
}

interface EditableTableProps<T extends TableName> {
  readonly table: T;
  /** One row in the shop's words: `job`. */
  readonly noun: string;
  /** Several: `jobs`, if not only an s is put behind. */
  readonly nouns?: string;
  readonly columns: readonly Column<T>[];
  /** What can be opened under a row. */
  readonly detail?: (row: RowOf<T>) => ReactNode;
  /** Fields the detail shows; their faults are told there while it is open. */
  readonly detailFields?: readonly string[];
  /** A new row with good defaults, or a sentence on why there can be none yet; rows that begin elsewhere have none. */
  readonly fresh?: (id: string) => { id: string } | string;
  /** The id proposed for a copy. */
  readonly copyId?: (id: string, taken: readonly string[]) => string;
  /** What to say where there are no rows. */
  readonly empty: string;
}

/** Rows from which on a table can be searched. */
const MANY = 10;
/** Rows drawn at a time: every field of thousands of rows at once would take the screen many seconds. */
const AT_A_TIME = 200;

/** Pixels under which a column without a width of its own could not be read: a narrow window scrolls sideways instead. */
const LEAST_COLUMN = 110;
/** Of the columns that open the details and hold the buttons. */
const SIDE_COLUMNS = 100;

function leastWidth(columns: readonly { readonly width?: number | string }[]): number {
  const widths = columns.map(({ width }) => (typeof width === 'number' ? width : LEAST_COLUMN));
  return widths.reduce((sum, width) => sum + width, SIDE_COLUMNS);
}

/** A table of the shop, every value edited where it stands. */
export function EditableTable<T extends TableName>(props: EditableTableProps<T>): ReactNode {
  const { table, noun, nouns = `${noun}s`, columns, detail, detailFields = [], fresh, copyId = nextId, empty } = props;
  const store = useShopStore();
  const rows: readonly RowOf<T>[] = useShop()[table];
  const [sought, setSought] = useState('');
  const [most, setMost] = useState(AT_A_TIME);
  const found = rows.filter((row) => matches(row, sought));
  const shown = found.slice(0, most);
  const taken = rows.map((row) => row.id);
  const frame = useRef<HTMLDivElement>(null);
  const opener = useRef<HTMLButtonElement>(null);
  const bringing = useBringing(frame);
  const [imported, setImported] = useState<string | null>(null);
  const span = columns.length + (detail === undefined ? 1 : 2);

  // What is to be shown next may be beyond the rows drawn: looking for it by name brings it up.
  const next = useShopState(({ arrival }) => beyond(rows, arrival, table, most));
  if (next !== null && next !== sought) setSought(next);

  async function add(row: { id: string } | string, showAt: string): Promise<string | null> {
    if (typeof row === 'string') return row;
    const reply = await store.add(table, row);
    if (!reply.ok) return sentences(reply.faults);
    setSought('');
    store.arriveAt(keyOf({ table, id: row.id }, [showAt]));
    return null;
  }

  return (
    <div
      ref={frame}
      className={css.frame}
      data-hovered={bringing.hovered || undefined}
      {...{ [TAKES_ROWS]: '' }}
      {...bringing.handlers}
    >
      <div className={css.bar}>
        {rows.length >= MANY && (
          <label className={css.seek}>
            <span>Find</span>
            <input type="search" value={sought} onChange={(event) => setSought(event.target.value)} />
            {sought !== '' && (
              <output>
                {found.length} of {rows.length}
              </output>
            )}
          </label>
        )}
        <Button
          ref={opener}
          rank="quiet"
          aria-expanded={bringing.stage.at !== 'closed'}
          title="Paste rows from a spreadsheet, or open a CSV file"
          onClick={bringing.wait}
        >
          Import {nouns}
        </Button>
        <span role="status">{imported}</span>
      </div>
      {bringing.stage.at !== 'closed' && (
        <ImportPanel
          table={table}
          noun={noun}
          nouns={nouns}
          stage={bringing.stage}
          onText={bringing.takeText}
          onFile={(file) => void bringing.takeFile(file)}
          onClose={(say) => {
            bringing.close();
            setImported(say);
            opener.current?.focus();
          }}
        />
      )}
      <table className={css.table} style={{ minWidth: leastWidth(columns) }} onKeyDown={moveBetweenRows}>
        <colgroup>
          {detail !== undefined && <col className={css.narrow} />}
          {columns.map((column) => (
            <col key={column.id} style={{ width: column.width }} />
          ))}
          <col className={css.actions} />
        </colgroup>
        <thead>
          <tr>
            {detail !== undefined && <th aria-label="Details" />}
            {columns.map((column) => (
              <th key={column.id} scope="col" data-align={column.align}>
                {column.head}
                {column.unit !== undefined && <small>{column.unit}</small>}
              </th>
            ))}
            <th aria-label="Duplicate and delete" />
          </tr>
        </thead>
        {shown.map((row) => (
          <RecordOf key={store.handle(keyOf({ table, id: row.id }))} place={{ table, id: row.id }}>
            <TableRow
              table={table}
              noun={noun}
              row={row}
              columns={columns}
              detail={detail?.(row)}
              detailFields={detailFields}
              onCopy={() => void add({ ...row, id: copyId(row.id, taken) }, 'id')}
            />
          </RecordOf>
        ))}
        <NewRow
          noun={noun}
          span={span}
          hidden={found.length - shown.length}
          onMore={() => setMost(most + AT_A_TIME)}
          behindDetails={detail !== undefined}
          empty={rows.length === 0 ? empty : found.length === 0 ? `No ${noun} has "${sought}" in it.` : null}
          onAdd={fresh === undefined ? null : (id) => add(fresh(id), 'name')}
        />
      </table>
      <Notes of={table} alone />
    </div>
  );
}

/** The id of the row that is to be shown next, if it is not among the first `most`. */
function beyond(
  rows: readonly { readonly id: string }[],
  arrival: string | null,
  table: TableName,
  most: number,
): string | null {
  if (arrival === null || rows.length <= most) return null;
  const place = rows.findIndex(({ id }) => within(arrival, keyOf({ table, id })));
  return place < most ? null : (rows[place]?.id ?? null);
}

function matches(row: unknown, sought: string): boolean {
  return sought === '' || JSON.stringify(row).toLowerCase().includes(sought.trim().toLowerCase());
}
