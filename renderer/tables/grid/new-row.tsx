import { type ReactNode, useState } from 'react';
import { Button } from '../../look';
import { parseId } from '../parse';
import css from './new-row.module.css';

interface NewRowProps {
  readonly noun: string;
  readonly span: number;
  /** Rows of the table that are not drawn yet. */
  readonly hidden: number;
  readonly onMore: () => void;
  /** The table has a column that opens details. */
  readonly behindDetails: boolean;
  /** Said above the row where the table shows nothing. */
  readonly empty: string | null;
  /** Resolves to null, or to why not; null where rows begin elsewhere. */
  readonly onAdd: ((id: string) => Promise<string | null>) | null;
}

/** The last row of a table: a new id typed here is a new row. */
export function NewRow({ noun, span, hidden, onMore, behindDetails, empty, onAdd }: NewRowProps): ReactNode {
  const [typed, setTyped] = useState('');
  const [trouble, setTrouble] = useState<string | null>(null);

  async function add(): Promise<void> {
    if (onAdd === null || typed.trim() === '') return setTrouble(null);
    const parsed = parseId(typed);
    const why = parsed.ok ? await onAdd(parsed.value) : parsed.say;
    setTrouble(why);
    if (why === null) setTyped('');
  }

  return (
    <tbody>
      {empty !== null && (
        <tr>
          <td colSpan={span} data-behind={behindDetails || undefined}>
            <p className={css.empty}>{empty}</p>
          </td>
        </tr>
      )}
      {hidden > 0 && (
        <tr>
          <td colSpan={span} data-behind={behindDetails || undefined}>
            <Button rank="quiet" onClick={onMore}>
              {hidden} more rows; show the next
            </Button>
          </td>
        </tr>
      )}
      {onAdd !== null && (
        <tr className={css.fresh}>
          <td colSpan={span} data-behind={behindDetails || undefined}>
            <input
              aria-label={`New ${noun}`}
              aria-invalid={trouble !== null}
              placeholder={`New ${noun}: type its short name, then Enter`}
              value={typed}
              spellCheck={false}
              autoComplete="off"
              onChange={(event) => setTyped(event.target.value)}
              onKeyDown={(event) => {
                if (event.key === 'Enter') void add();
                if (event.key === 'Escape') {
                  setTyped('');
                  setTrouble(null);
                }
              }}
            />
            {trouble !== null && (
              <p role="alert" className={css.trouble}>
                <b>Not taken</b> {trouble}
              </p>
            )}
          </td>
        </tr>
      )}
    </tbody>
  );
}
