import type { KeyboardEvent } from 'react';

/** Arrow up and down: to the same column of the row above or below. */
export function moveBetweenRows(event: KeyboardEvent<HTMLTableElement>): void {
  const step = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
  const from = event.target;
  // Arrows choose inside a menu or a list of suggestions.
  if (step === 0 || event.altKey || !(from instanceof HTMLInputElement) || from.hasAttribute('list')) return;
  const table = event.currentTarget;
  const cell = from.closest('td');
  if (cell === null || cell.closest('table') !== table) return;
  const column = cell.dataset.column;
  const fields = [...table.querySelectorAll<HTMLElement>('td[data-column]')]
    .filter((other) => other.dataset.column === column && other.closest('table') === table)
    .map((other) => other.querySelector<HTMLElement>('input, select'))
    .filter((field) => field !== null);
  const next = fields[fields.findIndex((field) => cell.contains(field)) + step];
  if (next === undefined) return;
  event.preventDefault();
  next.focus();
}
