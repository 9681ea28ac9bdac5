import type { StopCause } from '../../core/contract';

/** `82 %`, with a decimal below ten. */
export function percent(share: number): string {
  const value = 100 * share;
  return `${value < 9.95 && value > 0 ? value.toFixed(1) : value.toFixed(0)} %`;
}

/** What stops a machine, as the beginning of a sentence about it. */
export function stopText({ kind, run, name }: StopCause): string {
  switch (kind) {
    case 'tool':
      return `Out of ${name} in ${run}`;
    case 'shared':
      return `${name}`;
    case 'handling':
      return `Pallet change before ${run}`;
    case 'block':
      return `${run} stops it`;
  }
}
