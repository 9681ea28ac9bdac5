import { referee } from '../../../core/referee';
import { type Plan, type PlannedRun, type Shop, type ShopInput, shopSchema } from '../../../core/shop';
import { clockOn } from '../../../core/time';

type Operation = NonNullable<ShopInput['jobs']>[number]['route'][number];

/** Minute of a time on the plan's day. */
export const at = (clock: string, days = 0): number =>
  1440 * days + 60 * Number(clock.slice(0, 2)) + Number(clock.slice(3));

export interface NightRun {
  readonly machine?: string;
  readonly minutes: number;
  readonly operation?: Partial<Operation>;
}

/** What is usual of nights, all of it off: each test turns on what it is about. */
const QUIET = { cycleSpread: 0, handling: 0 };

/**
 * Own shops: machines with places for everything, nobody there from 22:00 to 06:00, runs `J1/10/1`, `J2/10/1` and so on
 * one after the other on their machine from 22:00 on.
 */
export function nightOf(
  runs: readonly NightRun[],
  more: Partial<ShopInput> = {},
  start = at('22:00'),
): { shop: Shop; plan: Plan } {
  const machines = [...new Set(runs.map(({ machine }) => machine ?? 'M1'))];
  const shop = shopSchema.parse({
    format: 'nightload-shop',
    version: 1,
    name: 'Night',
    zone: 'UTC',
    horizonDays: 3,
    night: QUIET,
    people: [{ id: 'P', hours: [{ days: ['mon', 'tue', 'wed', 'thu', 'fri'], from: '06:00', to: '22:00' }] }],
    machines: machines.map((id) => ({ id, kind: 'mill', places: null, nightFraction: 1 })),
    jobs: runs.map(({ machine, minutes, operation }, i) => ({
      id: `J${i + 1}`,
      due: '2026-11-06T12:00',
      route: [{ id: '10', machines: [{ machine: machine ?? 'M1', cycle: minutes }], ...operation }],
    })),
    ...more,
  } satisfies ShopInput);
  const free = new Map<string, number>();
  const planned = runs.map(({ machine = 'M1', minutes }, i): PlannedRun => {
    const from = free.get(machine) ?? start;
    free.set(machine, from + minutes);
    const nothing = { pallet: null, load: null, check: null, work: null, unload: null };
    return { run: `J${i + 1}/10/1`, machine, start: from, end: from + minutes, ...nothing };
  });
  const clock = clockOn('UTC', '2026-11-02T00:00');
  const cost = { ...{ lateness: 0, loaded: 0, tonight: 0, laterNights: 0, morning: 0, rounds: 0 } };
  const plan: Plan = {
    ...{ format: 'nightload-plan', version: 1, shop: 'Night', clock, now: at('20:00'), horizon: at('00:00', 3) },
    ...{ runs: planned, care: [], left: [], conflicts: [], bound: null },
    cost: { ...cost, extraHours: 0, moved: 0, flow: 0, finish: 0, total: 0 },
    search: { seed: 1, steps: 0, seconds: 0, ending: 'limit' },
  };
  const priced = { ...plan, cost: referee(shop, plan).cost };
  const { breaches } = referee(shop, priced);
  if (breaches.length > 0) throw new Error(breaches.map((breach) => breach.say).join(' '));
  return { shop, plan: priced };
}

/** Half the width of a confidence interval of a share, at four standard deviations: once in 16,000 it is missed. */
export function fourSigma(chance: number, nights: number): number {
  return 4 * Math.sqrt((chance * (1 - chance)) / nights) + 1e-9;
}
