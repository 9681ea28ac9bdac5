import type { ReactNode } from 'react';
import { WEEKDAYS, type Weekday } from '../../../core/time';
import type { FieldProps } from '../fields';
import { keyedFaults, keyOf, putting, usePlace, useShopState, useShopStore } from '../store';
import css from './hours.module.css';

const NAMES: Record<Weekday, string> = {
  mon: 'Monday',
  tue: 'Tuesday',
  wed: 'Wednesday',
  thu: 'Thursday',
  fri: 'Friday',
  sat: 'Saturday',
  sun: 'Sunday',
};

/** Days of the week, each on or off. */
export function DaysField({ path, label, value }: FieldProps<readonly Weekday[]>): ReactNode {
  const store = useShopStore();
  const place = usePlace();
  const key = keyOf(place, path);
  const span = keyOf(place, path.slice(0, -1));
  const wrong = useShopState(
    (state) => key in state.refusals || keyedFaults(state.view).some((at) => at.key === key || at.key === span),
  );
  return (
    <fieldset className={css.days} aria-label={label} data-invalid={wrong || undefined}>
      {WEEKDAYS.map((day) => (
        <button
          key={day}
          type="button"
          data-at={day === 'mon' ? key : undefined}
          aria-label={NAMES[day]}
          aria-pressed={value.includes(day)}
          onClick={() => {
            const days = WEEKDAYS.filter((other) => (other === day) !== value.includes(other));
            void store.edit(place, putting(path, days));
          }}
        >
          {NAMES[day].slice(0, 2)}
        </button>
      ))}
    </fieldset>
  );
}
