import { type ScreenId, screenOf } from './screens';

/** What the address of the window names: a screen, and the copy of the shop it is shown on; null is the shop itself. */
export interface Address {
  readonly screen: ScreenId;
  readonly copy: string | null;
}

/** Reads `#/jobs?copy=3`. Plans are compared from the shop alone. */
export function addressOf(hash: string): Address {
  const [path = '', query = ''] = hash.split('?');
  const screen = screenOf(path);
  return { screen, copy: screen === 'compare' ? null : new URLSearchParams(query).get('copy') };
}

export function hashOf({ screen, copy }: Address): string {
  return copy === null || screen === 'compare' ? `#/${screen}` : `#/${screen}?copy=${copy}`;
}
