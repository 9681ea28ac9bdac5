import { useEffect } from 'react';
import { useShopState, useShopStore, within } from '../store';

/**
 * Shows and focuses what the store says is next: the field itself, or the nearest thing around it that is there. Waits
 * while `isHere` says that its screen is not the one shown.
 */
export function useArrival(isHere: (key: string) => boolean): void {
  const store = useShopStore();
  const arrival = useShopState((state) => state.arrival);
  const here = arrival !== null && isHere(arrival);
  useEffect(() => {
    if (arrival === null || !here) return;
    const [table, id, ...path] = arrival.split('/');
    // A field that is not on the screen is among the details of its row, or of a part of it.
    if (table !== 'settings' && path.length > 0 && fieldAt(arrival) === undefined) {
      for (let steps = 0; steps < path.length; steps++)
        store.setOpen([table, id, ...path.slice(0, steps)].join('/'), true);
    }
    const frame = requestAnimationFrame(() => {
      const field = nearestField(arrival);
      field?.scrollIntoView({ block: 'center' });
      field?.focus();
      store.arriveAt(null);
    });
    return () => cancelAnimationFrame(frame);
  }, [arrival, here, store]);
}

function fields(): HTMLElement[] {
  return [...document.querySelectorAll<HTMLElement>('[data-at]')];
}

function fieldAt(key: string): HTMLElement | undefined {
  return fields().find((field) => field.dataset.at === key);
}

function nearestField(key: string): HTMLElement | undefined {
  for (let steps = key.split('/'); steps.length > 1; steps = steps.slice(0, -1)) {
    const whole = steps.join('/');
    const field = fieldAt(whole) ?? fields().find((other) => within(other.dataset.at ?? '', whole));
    if (field !== undefined) return field;
  }
  return undefined;
}
