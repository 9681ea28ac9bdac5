import type { ReactNode } from 'react';
import { faultsWithin, keyOf, putting, usePlace, useShopState, useShopStore } from '../store';
import type { FieldProps } from './edit-field';
import css from './fields.module.css';

interface Choice<V> {
  readonly value: V;
  readonly say: string;
}

/** One of a few values. */
export function ChoiceField<V extends string | null>(
  props: FieldProps<V> & { choices: readonly Choice<V>[] },
): ReactNode {
  const { path, label, value, choices } = props;
  const store = useShopStore();
  const place = usePlace();
  const key = keyOf(place, path);
  const wrong = useShopState((state) => key in state.refusals || faultsWithin(state.view, key).length > 0);
  // A value that is no longer among the choices is still the value.
  const known = choices.some((choice) => choice.value === value);
  return (
    <select
      className={css.field}
      aria-label={label}
      aria-invalid={wrong}
      data-at={key}
      value={value ?? ''}
      onChange={(event) => {
        const chosen = choices.find((choice) => (choice.value ?? '') === event.target.value);
        if (chosen !== undefined) void store.edit(place, putting(path, chosen.value));
      }}
    >
      {!known && <option value={value ?? ''}>{value}</option>}
      {choices.map((choice) => (
        <option key={choice.value} value={choice.value ?? ''}>
          {choice.say}
        </option>
      ))}
    </select>
  );
}

/** Yes or no. */
export function TickField({ path, label, value }: FieldProps<boolean>): ReactNode {
  const store = useShopStore();
  const place = usePlace();
  const key = keyOf(place, path);
  const wrong = useShopState((state) => key in state.refusals || faultsWithin(state.view, key).length > 0);
  return (
    <input
      type="checkbox"
      className={css.tick}
      aria-label={label}
      aria-invalid={wrong}
      data-at={key}
      checked={value}
      onChange={(event) => void store.edit(place, putting(path, event.target.checked))}
    />
  );
}
