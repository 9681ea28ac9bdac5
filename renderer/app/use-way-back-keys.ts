import { useEffect } from 'react';
import type { ShopStore } from '../tables';

const TYPED_IN = 'input:not([type]), input[type="text"], input[type="number"], input[type="search"], textarea';

/**
 * Ctrl or Cmd with Z undoes, with Shift+Z or Y does again. Where something is typed and not sent yet, the keys stay the
 * field's own.
 */
export function useWayBackKeys(store: ShopStore): void {
  useEffect(() => {
    let typing: EventTarget | null = null;
    const typed = (event: Event): void => {
      typing = event.target;
    };
    const left = (): void => {
      typing = null;
    };
    const press = (event: KeyboardEvent): void => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
      const key = event.key.toLowerCase();
      if (key !== 'z' && key !== 'y') return;
      const field = document.activeElement;
      if (field instanceof HTMLElement && isUnsaved(field, field === typing)) return;
      event.preventDefault();
      void store.goBack(key === 'y' || event.shiftKey ? 'redo' : 'undo');
    };
    document.addEventListener('input', typed);
    document.addEventListener('focusout', left);
    document.addEventListener('keydown', press);
    return () => {
      document.removeEventListener('input', typed);
      document.removeEventListener('focusout', left);
      document.removeEventListener('keydown', press);
    };
  }, [store]);
}

/** Fields of records know it; of others it is taken to be so from the first key typed until they are left. */
function isUnsaved(field: HTMLElement, typedInto: boolean): boolean {
  if (field.dataset.unsaved !== undefined) return field.dataset.unsaved === 'true';
  return typedInto && field.matches(TYPED_IN);
}
