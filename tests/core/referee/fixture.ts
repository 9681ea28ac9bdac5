import { type Breach, referee } from '../../../core/referee';
import { type Attendance, type Plan, type PlannedRun, type Shop, type ShopInput, shopSchema } from '../../../core/shop';
import { clockOn } from '../../../core/time';

/** Small shops and plans of our own, each worked out by hand in the test that uses it. All on Wednesday 25 November. */

export const DATE = '2026-11-25';
const ZONE = 'Europe/Berlin';
const EVERY_WEEKDAY = ['mon', 'tue', 'wed', 'thu', 'fri'] as const;

type JobInput = NonNullable<ShopInput['jobs']>[number];
type OperationInput = JobInput['route'][number];
export type FloorInput = NonNullable<ShopInput['floor']>[number];

/** The minute of a time on Wednesday, or on a later day. */
export function t(time: string, daysLater = 0): number {
  return daysLater * 1440 + Number(time.slice(0, 2)) * 60 + Number(time.slice(3));
}

/**
 * M1, M2: two places and one load station each, five minutes apart. C1, C2: cell K with two places and one station.
 * T1: loaded on the table. B1: a bench. All other walks take two minutes. Ana 06:00 to 14:00 with a break at 10:00 for
 * 15 minutes, and extra hours to 16:00; Ben 14:00 to 22:00.
 */
export function shopOf(jobs: JobInput[], more: Partial<ShopInput> = {}): Shop {
  return shopSchema.parse({
    format: 'nightload-shop',
    version: 1,
    name: 'Bench of the referee',
    zone: ZONE,
    horizonDays: 3,
    walking: { usual: 2, between: [{ from: 'M1', to: 'M2', minutes: 5 }] },
    people: [
      {
        id: 'ana',
        name: 'Ana',
        skills: ['measure'],
        hours: [
          { days: [...EVERY_WEEKDAY], from: '06:00', to: '14:00' },
          { days: [...EVERY_WEEKDAY], from: '14:00', to: '16:00', extra: true },
        ],
        breaks: [{ from: '10:00', to: '10:15' }],
      },
      { id: 'ben', hours: [{ days: [...EVERY_WEEKDAY], from: '14:00', to: '22:00' }] },
    ],
    cells: [{ id: 'K', places: 2, stations: 1 }],
    machines: [
      { id: 'M1', kind: 'mill', places: 2 },
      { id: 'M2', kind: 'mill', places: 2 },
      { id: 'C1', kind: 'mill', cell: 'K' },
      { id: 'C2', kind: 'mill', cell: 'K' },
      { id: 'T1', kind: 'grind' },
      { id: 'B1', kind: 'bench' },
    ],
    pallets: [
      { id: 'P1', fixture: 'vise' },
      { id: 'P2', fixture: 'vise' },
      { id: 'P3', fixture: 'vise' },
      { id: 'P4', fixture: 'vise', machines: ['M2'] },
      { id: 'Q1', fixture: 'magnet' },
    ],
    jobs,
    ...more,
  } satisfies ShopInput);
}

export function jobOf(id: string, route: OperationInput[], more: Partial<JobInput> = {}): JobInput {
  return { id, due: '2026-11-27T12:00', route, ...more };
}

/** An hour on M1 or M2, ten minutes to load and ten to unload, unless said otherwise. */
export function operation(more: Partial<OperationInput> = {}): OperationInput {
  return {
    id: '10',
    machines: [
      { machine: 'M1', cycle: 60 },
      { machine: 'M2', cycle: 60 },
    ],
    load: 10,
    unload: 10,
    ...more,
  };
}

/** An hour on M1, M2, C1 or C2 that needs nobody, unless said otherwise. */
export function handless(more: Partial<OperationInput> = {}): OperationInput {
  return { id: '10', machines: ['M1', 'M2', 'C1', 'C2'].map((machine) => ({ machine, cycle: 60 })), ...more };
}

export function by(person: string, start: number, minutes = 10): Attendance {
  return { person, start, end: start + minutes };
}

export function planned(
  run: string,
  machine: string,
  start: number,
  end: number,
  more: Partial<PlannedRun> = {},
): PlannedRun {
  return { run, machine, pallet: null, load: null, start, end, check: null, work: null, unload: null, ...more };
}

/** A plan made at 08:00 unless said otherwise, with its cost as the referee has it. */
export function planOf(shop: Shop, runs: PlannedRun[], more: Partial<Plan> = {}): Plan {
  const nothing = {
    lateness: 0,
    loaded: 0,
    tonight: 0,
    laterNights: 0,
    morning: 0,
    rounds: 0,
    extraHours: 0,
    flow: 0,
    moved: 0,
  };
  const plan: Plan = {
    format: 'nightload-plan',
    version: 1,
    shop: shop.name,
    clock: clockOn(shop.zone, `${DATE}T00:00`),
    now: t('08:00'),
    horizon: t('00:00', shop.horizonDays),
    runs,
    care: [],
    left: [],
    conflicts: [],
    cost: { ...nothing, finish: 0, total: 0 },
    bound: null,
    search: { seed: 1, steps: 0, seconds: 0, ending: 'limit' },
    ...more,
  };
  return more.cost === undefined ? { ...plan, cost: referee(shop, plan).cost } : plan;
}

export function reporting(...runs: string[]): Partial<Plan> {
  return { conflicts: runs.map((run) => ({ run, say: 'does not hold' })) };
}

/** `1 machine-overlap A/10/1 B/10/1`. */
export function brief({ rule, code, runs }: Breach): string {
  return [rule, code, ...runs].join(' ');
}

/** What the plan breaks, in short. */
export function broken(shop: Shop, runs: PlannedRun[], more: Partial<Plan> = {}): string[] {
  return referee(shop, planOf(shop, runs, more)).breaches.map(brief);
}
