import type { TableName } from '../../core/shop';
import type { KeyedFault } from '../tables';

/** The screens in the order of the navigation. */
export const SCREENS = [
  { id: 'plan', name: 'Plan' },
  { id: 'tonight', name: 'Tonight' },
  { id: 'shifts', name: 'Shifts' },
  { id: 'compare', name: 'Compare' },
  { id: 'jobs', name: 'Jobs' },
  { id: 'machines', name: 'Machines' },
  { id: 'pallets', name: 'Pallets' },
  { id: 'tools', name: 'Tools' },
  { id: 'people', name: 'People' },
  { id: 'shop', name: 'Shop' },
] as const;

export type ScreenId = (typeof SCREENS)[number]['id'];

/** What goes to the screen at that place: Alt and its number, 0 for the tenth. */
export function hotKeyOf(at: number): string {
  return `Alt+${(at + 1) % 10}`;
}

/** The screen that Alt and this digit goes to. */
export function screenOfDigit(digit: number): ScreenId | undefined {
  return SCREENS[(digit + 9) % 10]?.id;
}

/** The screen an address such as `#/jobs` names; the plan where it names none. */
export function screenOf(hash: string): ScreenId {
  const named = hash.replace(/^#\/?/, '');
  return SCREENS.find(({ id }) => id === named)?.id ?? 'plan';
}

const SCREEN_OF_TABLE: Record<TableName, ScreenId> = {
  jobs: 'jobs',
  templates: 'jobs',
  machines: 'machines',
  cells: 'machines',
  pallets: 'pallets',
  people: 'people',
  shifts: 'shop',
  tools: 'tools',
};

/** The screen on which the thing that `key` names is edited. */
export function screenOfKey(key: string): ScreenId {
  const head = key.split('/')[0] as string;
  return head in SCREEN_OF_TABLE ? SCREEN_OF_TABLE[head as TableName] : 'shop';
}

/** How many faults wait on each screen. */
export function countFaults(
  faults: readonly KeyedFault[],
): ReadonlyMap<ScreenId, { errors: number; warnings: number }> {
  const counts = new Map<ScreenId, { errors: number; warnings: number }>();
  for (const { key, fault } of faults) {
    const screen = screenOfKey(key);
    const count = counts.get(screen) ?? { errors: 0, warnings: 0 };
    if (fault.level === 'error') count.errors++;
    else count.warnings++;
    counts.set(screen, count);
  }
  return counts;
}
