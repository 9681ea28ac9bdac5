import { type KeyboardEvent, type ReactNode, useState } from 'react';
import css from './name-field.module.css';

interface NameFieldProps {
  readonly name: string;
  readonly label: string;
  /** What it is called while it has no name. */
  readonly placeholder: string;
  /** True if it was taken; else what was typed stays. */
  readonly onName: (name: string) => Promise<boolean>;
  /** The name as it is counts again, after one that was not taken. */
  readonly onForgive: () => void;
}

/** A name that looks like text and is edited where it stands: Enter or leaving it sends it, Escape goes back. */
export function NameField({ name, label, placeholder, onName, onForgive }: NameFieldProps): ReactNode {
  const [draft, setDraft] = useState<string | null>(null);
  const [refused, setRefused] = useState(false);

  async function commit(): Promise<void> {
    if (draft === null) return;
    const wanted = draft.trim();
    const taken = wanted === name || (await onName(wanted));
    setRefused(!taken);
    if (taken) setDraft(null);
  }

  function press(event: KeyboardEvent): void {
    if (event.key === 'Enter') void commit();
    else if (event.key === 'Escape') {
      if (refused) onForgive();
      setRefused(false);
      setDraft(null);
    }
  }

  const shown = draft ?? name;
  return (
    <input
      className={css.name}
      aria-label={label}
      aria-invalid={refused}
      data-unsaved={draft !== null}
      value={shown}
      title={shown === '' ? 'Give it a name' : shown}
      placeholder={placeholder}
      spellCheck={false}
      autoComplete="off"
      onChange={(event) => setDraft(event.target.value)}
      onBlur={() => void commit()}
      onKeyDown={press}
    />
  );
}
