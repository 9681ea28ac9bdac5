import { type Shop, type ShopInput, shopSchema } from '../shop';
import { addDays, WEEKDAYS } from '../time';
import type { JobShop, JobShopOperation } from './jobshop';

const START = '2026-01-05';
const MINUTES_PER_DAY = 1440;
/** The most the schema of a shop allows. */
const MOST_DAYS = 3000;

/**
 * A job shop as a shop without hands or nights: machines `M1`, `M2` … round the clock with unlimited places, jobs
 * `J1`, `J2` … with operations `1`, `2` …, one part each. Only the finish counts, so the plan's cost is its makespan
 * in hours. The zone has no clock changes. With `operators`, so many people `P1`, `P2` … are there round the clock, and
 * every operation needs one of them throughout: work by hand.
 */
export function jobShopAsShop(jobShop: JobShop, operators = 0): Shop {
  // Longer than any plan that never lets all machines stand at once.
  const longest = jobShop.jobs.flat().reduce((sum, operation) => sum + slowest(operation), 0);
  const horizonDays = Math.min(MOST_DAYS, Math.ceil(longest / MINUTES_PER_DAY) + 1);
  const due = `${addDays(START, horizonDays)}T00:00`;
  const input: ShopInput = {
    format: 'nightload-shop',
    version: 1,
    name: jobShop.name.trim() || 'Job shop',
    zone: 'UTC',
    horizonDays,
    planFrom: `${START}T00:00`,
    weights: {
      lateness: 0,
      tonight: 0,
      laterNights: 0,
      morning: 0,
      rounds: 0,
      extraHours: 0,
      flow: 0,
      moved: 0,
      finish: 1,
    },
    machines: Array.from({ length: jobShop.machines }, (_, m) => ({
      id: `M${m + 1}`,
      kind: operators > 0 ? 'bench' : 'mill',
      places: null,
    })),
    people: Array.from({ length: operators }, (_, p) => ({
      id: `P${p + 1}`,
      hours: [{ days: [...WEEKDAYS], from: '00:00', to: '24:00' }],
    })),
    walking: { usual: 0 },
    jobs: jobShop.jobs.map((operations, j) => ({
      id: `J${j + 1}`,
      due,
      route: operations.map((operation, o) => ({
        id: String(o + 1),
        machines: quickest(operation).map(({ machine, cycle }) => ({ machine, cycle: Math.max(1, cycle) })),
      })),
    })),
  };
  return withInstants(shopSchema.parse(input), jobShop);
}

/**
 * Published files hold a few operations that take no time; a shop's own must take some, so its schema is given a minute
 * for each of them and the minute is taken away here.
 */
function withInstants(shop: Shop, jobShop: JobShop): Shop {
  const jobs = shop.jobs.map((job, j) => ({
    ...job,
    route: job.route.map((operation, o) => ({ ...operation, machines: quickest(jobShop.jobs[j]![o]!) })),
  }));
  return { ...shop, jobs };
}

function slowest(operation: JobShopOperation): number {
  return Math.max(...operation.alternatives.map((a) => a.minutes));
}

/** A file may list one machine twice for an operation; nobody would take the slower of the two. */
function quickest(operation: JobShopOperation): { machine: string; cycle: number }[] {
  const cycles = new Map<string, number>();
  for (const { machine, minutes } of operation.alternatives) {
    const id = `M${machine + 1}`;
    cycles.set(id, Math.min(minutes, cycles.get(id) ?? minutes));
  }
  return [...cycles].map(([machine, cycle]) => ({ machine, cycle }));
}
