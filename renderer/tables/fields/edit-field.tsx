import { type KeyboardEvent, type ReactNode, useId, useRef, useState } from 'react';
import type { Parse } from '../parse';
import { faultsWithin, keyOf, type Path, putting, usePlace, useShopState, useShopStore } from '../store';
import css from './fields.module.css';

export interface FieldProps<V> {
  /** Where the value stands in its record. */
  readonly path: Path;
  /** What the field is, for those who cannot see the head of its column. */
  readonly label: string;
  readonly value: V;
}

interface EditFieldProps<V> extends FieldProps<V> {
  readonly parse: Parse<V>;
  readonly show: (value: V) => string;
  readonly suggest?: readonly string[];
  readonly align?: 'end';
  readonly placeholder?: string;
  /** Width in characters, for fields that stand in a line of text. */
  readonly size?: number;
  /** The record with this value, where more of it changes than the value. */
  readonly change?: (record: unknown, value: V) => unknown;
}

/**
 * A value that looks like text and is edited where it stands: Enter or leaving it sends the whole record, Escape goes
 * back to the value as it is. What is refused stays as typed, until mended or taken back.
 */
export function EditField<V>(props: EditFieldProps<V>): ReactNode {
  const { path, label, value, parse, show, suggest, align, placeholder, size, change } = props;
  const store = useShopStore();
  const key = keyOf(usePlace(), path);
  const place = usePlace();
  const refusal = useShopState((state) => state.refusals[key]);
  const faulty = useShopState((state) => faultsWithin(state.view, key).length > 0);
  const [draft, setDraft] = useState<string | null>(null);
  const sent = useRef<string | null>(null);
  const list = useId();
  const shown = draft ?? refusal?.text ?? show(value);

  async function commit(text: string | null): Promise<void> {
    if (text === null || sent.current === text) return;
    const parsed = parse(text);
    if (!parsed.ok) {
      store.refuse(key, { text, say: parsed.say });
      setDraft(null);
    } else if (show(parsed.value) === show(value)) revert();
    else {
      sent.current = text;
      const edit = putting(path, parsed.value, text);
      await store.edit(
        place,
        change === undefined ? edit : { ...edit, change: (record) => change(record, parsed.value) },
      );
      sent.current = null;
      setDraft((now) => (now === text ? null : now));
    }
  }

  function revert(): void {
    setDraft(null);
    store.forgive(key);
  }

  function press(event: KeyboardEvent): void {
    if (event.key === 'Enter') void commit(draft ?? refusal?.text ?? null);
    else if (event.key === 'Escape') {
      revert();
      event.stopPropagation();
    }
  }

  return (
    <>
      <input
        className={css.field}
        aria-label={label}
        aria-invalid={refusal !== undefined || faulty}
        data-at={key}
        data-unsaved={draft !== null || refusal?.text != null}
        data-align={align}
        data-inline={size !== undefined || undefined}
        style={size === undefined ? undefined : { width: `calc(${size}ch + 10px)` }}
        value={shown}
        placeholder={placeholder}
        title={shown.length > 12 ? shown : undefined}
        list={suggest === undefined ? undefined : list}
        spellCheck={false}
        autoComplete="off"
        onChange={(event) => setDraft(event.target.value)}
        onBlur={() => void commit(draft)}
        onKeyDown={press}
        onFocus={(event) => event.target.select()}
      />
      {suggest !== undefined && (
        <datalist id={list}>
          {suggest.map((text) => (
            <option key={text} value={text} />
          ))}
        </datalist>
      )}
    </>
  );
}
