import type { ReactNode } from 'react';
import type { RowOf, TableName } from '../../../core/shop';
import { Button, CopyIcon, DeleteIcon, OpenIcon } from '../../look';
import { keyOf, useShopState, useShopStore } from '../store';
import type { Column } from './editable-table';
import css from './editable-table.module.css';
import { Notes } from './notes';

interface TableRowProps<T extends TableName> {
  readonly table: T;
  readonly noun: string;
  readonly row: RowOf<T>;
  readonly columns: readonly Column<T>[];
  readonly detail: ReactNode;
  readonly detailFields: readonly string[];
  readonly onCopy: () => void;
}

/** One row, what is wrong with it in a line beneath, and its details if they are open. */
export function TableRow<T extends TableName>(props: TableRowProps<T>): ReactNode {
  const { table, noun, row, columns, detail, detailFields, onCopy } = props;
  const store = useShopStore();
  const place = { table, id: row.id };
  const key = keyOf(place);
  const hasDetail = detail !== undefined;
  const open = useShopState((state) => state.open.has(key)) && hasDetail;
  const span = columns.length + (hasDetail ? 2 : 1);
  return (
    <tbody data-open={open || undefined}>
      <tr>
        {hasDetail && (
          <td className={css.narrow}>
            <Button
              rank="quiet"
              className={css.turn ?? ''}
              aria-expanded={open}
              aria-label={`Details of ${row.id}`}
              onClick={() => store.setOpen(key, !open)}
            >
              <OpenIcon />
            </Button>
          </td>
        )}
        {columns.map((column) => (
          <td key={column.id} data-column={column.id} data-align={column.align}>
            {column.draw(row)}
          </td>
        ))}
        <td className={css.actions}>
          <Button rank="quiet" aria-label={`Duplicate ${row.id}`} title="Duplicate" onClick={onCopy}>
            <CopyIcon />
          </Button>
          <Button
            rank="quiet"
            aria-label={`Delete ${row.id}`}
            title="Delete"
            onClick={() => void store.remove(place, `Deleted ${noun} ${row.id}.`)}
          >
            <DeleteIcon />
          </Button>
        </td>
      </tr>
      <tr className={css.under}>
        <td colSpan={span}>
          <Notes of={key} except={open ? detailFields.map((field) => keyOf(place, [field])) : []} />
        </td>
      </tr>
      {open && (
        <tr className={css.detail}>
          <td colSpan={span}>{detail}</td>
        </tr>
      )}
    </tbody>
  );
}
