import { expect } from 'vitest';
import { faultsOf, parseShop, type Shop } from '../../../core/shop';

/** A Monday on which no clock changes. */
export const MONDAY = '2026-11-30T06:00';

/** An own instance small enough to plan by eye: one mill with places, one pallet, one person, one job of two runs. */
export function smallShop() {
  return {
    format: 'nightload-shop',
    version: 1,
    name: 'Small',
    zone: 'Europe/Berlin',
    horizonDays: 7,
    shifts: [{ id: 'Day', days: ['mon', 'tue'], from: '06:00', to: '14:00' }] as object[],
    walking: { usual: 1, between: [] as object[] },
    people: [
      {
        id: 'Ada',
        skills: ['milling'],
        hours: [{ days: ['mon', 'tue', 'wed', 'thu', 'fri'], from: '06:00', to: '14:00' }] as object[],
        breaks: [{ from: '09:00', to: '09:30' }] as object[],
        exceptions: [] as object[],
      },
    ],
    cells: [] as object[],
    machines: [
      {
        id: 'M1',
        kind: 'mill',
        inUse: true,
        places: 3 as number | null,
        cell: null as string | null,
        skill: 'milling',
        hours: [] as object[],
        closures: [] as object[],
        magazine: [{ tool: 'EM10', left: [60] }],
      },
    ],
    pallets: [
      { id: 'P1', fixture: 'VISE', machines: ['M1'] },
      { id: 'P2', fixture: 'VISE', machines: [] },
    ] as { id: string; fixture: string; machines: string[]; inUse?: boolean }[],
    tools: [{ id: 'EM10', life: 90 }],
    jobs: [
      {
        id: 'J-1',
        quantity: 2,
        release: null as string | null,
        due: '2026-12-04T12:00',
        overdue: false,
        route: [
          {
            id: '10',
            machines: [{ machine: 'M1', cycle: 60 }],
            fixture: 'VISE' as string | null,
            load: 10,
            unload: 5,
            tools: [{ tool: 'EM10', minutes: 20 }],
            firstPiece: null as object | null,
          },
        ],
      },
    ],
    floor: [] as object[],
  };
}

export type Small = ReturnType<typeof smallShop>;

/** The small shop with a change, parsed. */
export function shopWith(change: (shop: Small) => void): Shop {
  const input = smallShop();
  change(input);
  const parsed = parseShop(input);
  if (!parsed.ok) throw new Error(parsed.faults.map((f) => f.say).join('\n'));
  return parsed.value;
}

/** The first fault with this code, which must be there. */
export function faultWith(code: string, change: (shop: Small) => void, at = MONDAY) {
  const faults = faultsOf(shopWith(change), at);
  const found = faults.find((f) => f.code === code);
  expect(
    faults.map((f) => f.code),
    `looking for ${code}`,
  ).toContain(code);
  if (found === undefined) throw new Error('not reached');
  return found;
}

export function codesOf(change: (shop: Small) => void, at = MONDAY): string[] {
  return faultsOf(shopWith(change), at).map((f) => f.code);
}
