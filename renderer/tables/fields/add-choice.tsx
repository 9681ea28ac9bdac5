import type { ReactNode } from 'react';
import css from './fields.module.css';
import { openOnArrow } from './open-on-arrow';

interface AddChoiceProps {
  /** What can be done here: `Add tool`. */
  readonly say: string;
  readonly choices: readonly { readonly id: string; readonly name: string }[];
  readonly onAdd: (id: string) => void;
  /** Key of the list that it adds to. */
  readonly at: string;
}

/** A menu that reads like a button and adds what is chosen; nothing where there is nothing to add. */
export function AddChoice({ say, choices, onAdd, at }: AddChoiceProps): ReactNode {
  if (choices.length === 0) return null;
  return (
    <select
      className={css.addChoice}
      aria-label={say}
      data-at={at}
      value=""
      onKeyDown={openOnArrow}
      onChange={(event) => onAdd(event.target.value)}
    >
      <option value="">{say}</option>
      {choices.map(({ id, name }) => (
        <option key={id} value={id}>
          {name === '' ? id : `${id}  ${name}`}
        </option>
      ))}
    </select>
  );
}
