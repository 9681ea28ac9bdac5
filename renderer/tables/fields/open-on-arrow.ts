import type { KeyboardEvent } from 'react';

/** Arrows open a menu that adds what is chosen; by themselves some browsers would choose the next entry unseen. */
export function openOnArrow(event: KeyboardEvent<HTMLSelectElement>): void {
  if (event.key !== 'ArrowDown' && event.key !== 'ArrowUp') return;
  event.preventDefault();
  event.currentTarget.showPicker();
}
