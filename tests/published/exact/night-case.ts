import { type Shop, shopSchema } from '../../../core/shop';

/**
 * A night small enough to be solved exactly: one operator, one fixture kind a pallet, one part a pallet. Times are
 * minutes from the first midnight, and every one of them is a multiple of `slot`.
 */
export interface NightCase {
  readonly name: string;
  readonly slot: number;
  readonly weights: { readonly lateness: number; readonly tonight: number; readonly finish: number };
  readonly machines: readonly CaseMachine[];
  /** Places shared by the machines that say so; null where none does. */
  readonly cellPlaces: number | null;
  /** Same time each day. */
  readonly pause: Span | null;
  /** Number of pallets by fixture kind; each fits every machine. */
  readonly pallets: Readonly<Record<string, number>>;
  readonly jobs: readonly CaseJob[];
}

export interface CaseMachine {
  readonly id: string;
  /** 0: loaded on the table. */
  readonly places: number;
  readonly inCell?: boolean;
  readonly closed?: Span;
}

export interface CaseJob {
  readonly id: string;
  /** One part a run. */
  readonly runs: number;
  readonly due: number;
  readonly weight: number;
  readonly release: number;
  readonly steps: readonly CaseStep[];
}

export interface CaseStep {
  readonly machines: readonly { readonly machine: string; readonly cycle: number }[];
  readonly fixture: string;
  readonly load: number;
  readonly unload: number;
  readonly lag: number;
  readonly check: { readonly after: number; readonly minutes: number } | null;
}

export interface Span {
  readonly from: number;
  readonly to: number;
}

export const NOW = 14 * 60;
export const HORIZON = 48 * 60;
/** The operator's second shift today, and the first shift tomorrow. */
export const SHIFTS: readonly Span[] = [
  { from: 14 * 60, to: 22 * 60 },
  { from: 30 * 60, to: 38 * 60 },
];
export const TONIGHT: Span = { from: 22 * 60, to: 30 * 60 };

export const MOMENT = '2026-03-03T14:00';
const DAYS = ['2026-03-03', '2026-03-04', '2026-03-05'] as const;
const DAY = 24 * 60;

/** The case as a shop. In UTC no clock changes; one spot for all machines, so walking takes no time. */
export function shopOf(night: NightCase): Shop {
  const { lateness, tonight, finish } = night.weights;
  return shopSchema.parse({
    format: 'nightload-shop',
    version: 1,
    name: night.name,
    zone: 'UTC',
    horizonDays: HORIZON / DAY,
    planFrom: MOMENT,
    weights: { lateness, tonight, finish, laterNights: 0, morning: 0, rounds: 0, extraHours: 0, flow: 0, moved: 0 },
    walking: { usual: 0 },
    people: [
      {
        id: 'Operator',
        hours: [],
        breaks: night.pause === null ? [] : [{ from: timeOfDay(night.pause.from), to: timeOfDay(night.pause.to) }],
        exceptions: SHIFTS.map(({ from, to }) => ({
          date: DAYS[Math.floor(from / DAY)]!,
          hours: [{ from: timeOfDay(from), to: timeOfDay(to) }],
        })),
      },
    ],
    cells: night.cellPlaces === null ? [] : [{ id: 'Cell', places: night.cellPlaces }],
    machines: night.machines.map(({ id, places, inCell, closed }) => ({
      id,
      kind: 'mill' as const,
      places,
      cell: inCell === true ? 'Cell' : null,
      closures: closed === undefined ? [] : [{ from: localTime(closed.from), to: localTime(closed.to) }],
    })),
    pallets: Object.entries(night.pallets).flatMap(([fixture, count]) =>
      Array.from({ length: count }, (_, i) => ({ id: `${fixture}-${i + 1}`, fixture })),
    ),
    jobs: night.jobs.map(({ id, runs, due, weight, release, steps }) => ({
      id,
      quantity: runs,
      due: localTime(due),
      weight,
      release: release === NOW ? null : localTime(release),
      route: steps.map(({ machines, fixture, load, unload, lag, check }, step) => ({
        id: String(step + 1),
        machines: [...machines],
        fixture,
        load,
        unload,
        lag,
        firstPiece: check,
      })),
    })),
  });
}

function timeOfDay(minute: number): string {
  const within = minute % DAY;
  return `${String(Math.floor(within / 60)).padStart(2, '0')}:${String(within % 60).padStart(2, '0')}`;
}

function localTime(minute: number): string {
  return `${DAYS[Math.floor(minute / DAY)]!}T${timeOfDay(minute)}`;
}
