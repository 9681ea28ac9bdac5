import { type Plan, type PlannedRun, type Shop, type ShopInput, shopSchema } from '../../../core/shop';
import { type ClockSpan, clockOn, minuteOf, WEEKDAYS } from '../../../core/time';
import { NO_COST } from '../../support/no-cost';

/** Small shops and plans made by hand; times in them are `HH:MM` on Monday 2026-11-30, or `D HH:MM` days after it. */

export const DAILY = (from: string, to: string) => ({ days: [...WEEKDAYS], from, to });

type Jobs = NonNullable<ShopInput['jobs']>;
type Route = Jobs[number]['route'];
export type OperationInput = Route[number];

export function shopOf(parts: Partial<ShopInput>): Shop {
  return shopSchema.parse({
    format: 'nightload-shop',
    version: 1,
    name: 'Test shop',
    zone: 'Europe/Berlin',
    horizonDays: 14,
    ...parts,
  });
}

/** A job with one part per pallet, due a week later. */
export function jobOf(id: string, route: Route, parts: Partial<Jobs[number]> = {}): Jobs[number] {
  return { id, due: '2026-12-07T12:00', route, ...parts };
}

const DAY = '2026-11-30';
const CLOCK = clockOn('Europe/Berlin', `${DAY}T00:00`);

/** Minute of `HH:MM` or `D HH:MM`. */
export function at(time: string): number {
  const [day, clock] = time.includes(' ') ? (time.split(' ') as [string, string]) : ['0', time];
  const date = new Date(Date.parse(`${DAY}T00:00Z`) + Number(day) * 86_400_000).toISOString().slice(0, 10);
  return minuteOf(CLOCK, `${date}T${clock}`);
}

export type Span = readonly [person: string, from: string, to: string];

interface RunInput {
  readonly run: string;
  readonly machine: string;
  readonly pallet?: string;
  readonly load?: Span;
  readonly cut: readonly [from: string, to: string];
  readonly check?: Span;
  readonly work?: Span;
  readonly unload?: Span;
}

function attendance(span: Span | undefined) {
  return span === undefined ? null : { person: span[0], start: at(span[1]), end: at(span[2]) };
}

export function runOf({ run, machine, pallet, load, cut, check, work, unload }: RunInput): PlannedRun {
  return {
    run,
    machine,
    pallet: pallet ?? null,
    load: attendance(load),
    start: at(cut[0]),
    end: at(cut[1]),
    check: attendance(check),
    work: attendance(work),
    unload: attendance(unload),
  };
}

/** A plan as of `now` up to `horizon`; its cost is not worked out. */
export function planOf(
  runs: readonly RunInput[],
  { now = '06:00', horizon = '2 00:00', left = [] as Plan['left'] } = {},
): Plan {
  return {
    format: 'nightload-plan',
    version: 1,
    shop: 'Test shop',
    clock: CLOCK,
    now: at(now),
    horizon: at(horizon),
    runs: runs.map(runOf),
    care: [],
    left,
    conflicts: [],
    cost: NO_COST,
    bound: null,
    search: { seed: 1, steps: 0, seconds: 0, ending: 'limit' },
  };
}

/** Somebody in the shop daily between two times. */
export function personOf(id: string, from: string, to: string, breaks: ClockSpan[] = [], skills: string[] = []) {
  return { id, hours: [DAILY(from, to)], breaks, skills };
}
