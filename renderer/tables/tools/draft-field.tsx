import type { ReactNode } from 'react';
import { type Parse, parseAmount } from '../parse';
import css from './tools.module.css';

interface DraftFieldProps {
  readonly label: string;
  readonly text: string;
  /** Key by which something may lead here. */
  readonly at: string | null;
  readonly parse?: Parse<number>;
  readonly onType: (text: string) => void;
}

/** A number that is only reckoned with and kept nowhere. */
export function DraftField({ label, text, at, parse = parseAmount, onType }: DraftFieldProps): ReactNode {
  return (
    <input
      className={css.draft}
      aria-label={label}
      aria-invalid={text !== '' && !parse(text).ok}
      data-at={at ?? undefined}
      inputMode="decimal"
      autoComplete="off"
      value={text}
      onChange={(event) => onType(event.target.value)}
      onFocus={(event) => event.target.select()}
    />
  );
}
