import {
  type Plan,
  type PlanCost,
  type PlannedRun,
  planSchema,
  type Shop,
  type ShopInput,
  shopSchema,
  type ToolCare,
} from '../../../core/shop';
import { clockOn } from '../../../core/time';

/** A Monday on which no clock changes. */
export const DAY = '2026-11-30';
export const CLOCK = clockOn('Europe/Berlin', `${DAY}T00:00`);
/** 08:00, with people there from 06:00 to 22:00. */
export const NOW = 480;
/** Minutes of the plan at which the first night begins and ends. */
export const [EVENING, MORNING] = [1320, 1800] as const;

type ToolInput = NonNullable<ShopInput['tools']>[number];
type OperationInput = NonNullable<ShopInput['jobs']>[number]['route'][number];

/** One run as planned: job `A` is the first of the list, `B` the second, each of one run `A/10/1` on pallet `P1`. */
export interface Cut {
  readonly start: number;
  /** Minutes of cutting. */
  readonly cut: number;
  /** Minutes of each tool. */
  readonly uses: Readonly<Record<string, number>>;
  readonly machine?: string;
  readonly check?: { readonly after: number; readonly start: number; readonly minutes: number };
  readonly more?: Partial<OperationInput>;
}

export interface ToolShop {
  readonly tools: readonly ToolInput[];
  /** By machine, the minutes left in the sister tools of each kind. */
  readonly magazines: Readonly<Record<string, Readonly<Record<string, readonly number[]>>>>;
  readonly cuts: readonly Cut[];
  readonly care?: readonly ToolCare[];
  readonly nightFraction?: number;
  readonly always?: boolean;
}

const name = (i: number): string => String.fromCharCode(65 + i);

/** An own instance: mills whose runs are planned as given, and nothing else. */
export function toolShop(given: ToolShop): { shop: Shop; plan: Plan } {
  const { tools, magazines, cuts, care = [], nightFraction = 0.8, always = false } = given;
  const shop = shopSchema.parse({
    format: 'nightload-shop',
    version: 1,
    name: 'Tools',
    zone: CLOCK.zone,
    horizonDays: 5,
    people: [
      {
        id: 'Ada',
        hours: [
          {
            days: ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'],
            from: always ? '00:00' : '06:00',
            to: always ? '24:00' : '22:00',
          },
        ],
      },
    ],
    machines: Object.entries(magazines).map(([id, held]) => ({
      id,
      kind: 'mill',
      places: null,
      nightFraction,
      magazine: Object.entries(held).map(([tool, left]) => ({ tool, left: [...left] })),
    })),
    pallets: [{ id: 'P1', fixture: 'vice' }],
    tools: [...tools],
    jobs: cuts.map(({ cut, uses, machine = 'M1', check, more }, i) => ({
      id: name(i),
      due: '2026-12-04T12:00',
      route: [
        {
          id: '10',
          machines: [{ machine, cycle: cut }],
          fixture: 'vice',
          tools: Object.entries(uses).map(([tool, minutes]) => ({ tool, minutes })),
          firstPiece: check === undefined ? null : { after: check.after, minutes: check.minutes },
          ...more,
        },
      ],
    })),
  } satisfies ShopInput);
  const runs = cuts.map(({ start, cut, machine = 'M1', check }, i) => {
    const held = check === undefined ? 0 : check.start + check.minutes - start - check.after;
    const checked =
      check === undefined ? null : { person: 'Ada', start: check.start, end: check.start + check.minutes };
    return { run: `${name(i)}/10/1`, machine, pallet: 'P1', start, end: start + cut + held, check: checked };
  });
  return { shop, plan: planWith(shop, NOW, runs, care) };
}

/** A plan of these runs alone, without a hand that serves them, from midnight of the shop's day in {@link CLOCK}. */
export function planWith(
  shop: Shop,
  now: number,
  runs: readonly (Pick<PlannedRun, 'run' | 'machine' | 'start' | 'end'> & Partial<PlannedRun>)[],
  care: readonly ToolCare[] = [],
): Plan {
  return planSchema.parse({
    format: 'nightload-plan',
    version: 1,
    shop: shop.name,
    clock: CLOCK,
    now,
    horizon: shop.horizonDays * 1440,
    runs: runs.map((run) => ({ pallet: null, load: null, check: null, work: null, unload: null, ...run })),
    care,
    left: [],
    conflicts: [],
    cost: Object.fromEntries(COST_PARTS.map((part) => [part, 0])),
    bound: null,
    search: { seed: 1, steps: 0, seconds: 0, ending: 'limit' },
  });
}

const COST_PARTS: readonly (keyof PlanCost)[] = [
  'lateness',
  'loaded',
  'tonight',
  'laterNights',
  'morning',
  'rounds',
  'extraHours',
  'moved',
  'flow',
  'finish',
  'total',
];
