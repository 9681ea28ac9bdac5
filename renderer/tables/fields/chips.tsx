import type { ReactNode } from 'react';
import css from './fields.module.css';
import { openOnArrow } from './open-on-arrow';

interface ChipsProps {
  /** What is listed, for those who cannot see it. */
  readonly label: string;
  readonly chips: readonly { readonly id: string; readonly body?: ReactNode }[];
  /** Said where there is none. */
  readonly none?: string;
  /** What may still be added. */
  readonly more: readonly string[];
  readonly addSay: string;
  readonly onAdd: (id: string) => void;
  readonly onTakeOut: (id: string) => void;
  /** Key of the list as a whole, where a fault about it is shown. */
  readonly at: string;
  readonly invalid: boolean;
}

/** A short list of names, each with a way out, and one way to add another. */
export function Chips(props: ChipsProps): ReactNode {
  const { label, chips, none, more, addSay, onAdd, onTakeOut, at, invalid } = props;
  return (
    <fieldset className={css.chips} aria-label={label} data-invalid={invalid || undefined}>
      {chips.length === 0 && none !== undefined && <span className={css.none}>{none}</span>}
      {chips.map(({ id, body }) => (
        <span key={id} className={css.chip}>
          {id}
          {body}
          <button type="button" className={css.out} aria-label={`Take ${id} out`} onClick={() => onTakeOut(id)}>
            ×
          </button>
        </span>
      ))}
      {(more.length > 0 || chips.length === 0) && (
        <select
          className={css.add}
          aria-label={`${label}: ${addSay}`}
          title={addSay}
          data-at={at}
          value=""
          onKeyDown={openOnArrow}
          onChange={(event) => onAdd(event.target.value)}
        >
          <option value="">+</option>
          {more.map((id) => (
            <option key={id} value={id}>
              {id}
            </option>
          ))}
        </select>
      )}
    </fieldset>
  );
}
