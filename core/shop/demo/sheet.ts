import type { ShopInput } from '../schema';
import type { Moment } from './week';

type JobInput = NonNullable<ShopInput['jobs']>[number];
type OnSheet = Pick<JobInput['route'][number], 'measure' | 'ifStops' | 'correction'>;

/** What the run sheet says of some operations, by `job/operation`; nothing of it changes a plan. */
const operations = (on: Moment): Readonly<Record<string, OnSheet>> => {
  const date = (day: number): string => on(day, '00:00').slice(0, 10);
  return {
    'J-101/10': { measure: 'Stock on the floor 0.5 mm', ifStops: 'skip' },
    'J-101/20': {
      measure: 'Depth 22.40 ± 0.01 mm',
      ifStops: 'leave',
      correction: { text: 'BN03 set 0.01 mm shorter', why: 'floor came out deep', at: date(-3) },
    },
    'J-103/10': { measure: 'Guide width 18 h6', ifStops: 'skip' },
    'J-104/10': { measure: 'Bores 8 H7: plug in first and last', ifStops: 'skip' },
    'J-105/10': { measure: 'Width 12.30 mm before hardening', ifStops: 'skip' },
    'J-107/10': { measure: 'Seat 20.00 mm in its gauge', ifStops: 'skip' },
    'J-108/10': { measure: 'Wall left 0.6 mm all round', ifStops: 'call' },
    'J-108/20': { measure: 'Wall 3.20 ± 0.02 mm', ifStops: 'leave' },
    'J-110/10': { measure: 'Stock on the core 0.4 mm', ifStops: 'skip' },
    'J-112/10': { measure: 'Height 24.00 + 0.02 mm, four corners', ifStops: 'leave' },
    'J-118/10': {
      measure: 'Rib 0.80 mm at mid height',
      ifStops: 'skip',
      correction: { text: 'Last pass at half feed', why: 'ribs leaned over', at: date(-4) },
    },
    'J-120/10': { measure: 'Profile against its template', ifStops: 'leave' },
  };
};

const SPARE_BLANKS: Readonly<Record<string, number>> = { 'J-101': 1, 'J-105': 2, 'J-107': 2, 'J-118': 3 };

/** The jobs with what their run sheet says. */
export function withSheet(jobs: readonly JobInput[], on: Moment): JobInput[] {
  const said = operations(on);
  return jobs.map((job) => ({
    ...job,
    spareBlanks: SPARE_BLANKS[job.id] ?? 0,
    route: job.route.map((operation) => ({ ...operation, ...said[`${job.id}/${operation.id}`] })),
  }));
}
