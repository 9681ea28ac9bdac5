import { planShop } from '../../../core/engine';
import { type JobShop, jobShopAsShop } from '../../../core/exchange';
import { referee, type Verdict } from '../../../core/referee';
import { type Plan, type Shop, shopSchema } from '../../../core/shop';

const START = '2026-01-05T00:00';

/** Local time so many minutes after the moment all these shops are planned from. */
export function after(minutes: number): string {
  return new Date(Date.parse(`${START}Z`) + minutes * 60_000).toISOString().slice(0, 16);
}

/** Minutes by job and machine, each job through the machines in the same order. */
export function flowShop(jobs: readonly (readonly number[])[]): Shop {
  return jobShop(jobs.map((row) => row.map((minutes, machine) => [machine, minutes] as const)));
}

/** Pairs of machine (from 0) and minutes, by job. */
export function jobShop(jobs: readonly (readonly (readonly [machine: number, minutes: number])[])[]): Shop {
  const machines = 1 + Math.max(...jobs.flat().map(([machine]) => machine));
  return asShop({
    machines,
    jobs: jobs.map((job) => job.map(([machine, minutes]) => ({ alternatives: [{ machine, minutes }] }))),
  });
}

/** One operation a job, on any of so many equal machines. */
export function parallel(minutes: readonly number[], machines: number): Shop {
  const anyOf = (length: number) => Array.from({ length: machines }, (_, machine) => ({ machine, minutes: length }));
  return asShop({ machines, jobs: minutes.map((length) => [{ alternatives: anyOf(length) }]) });
}

function asShop(shop: Omit<JobShop, 'name'>): Shop {
  return jobShopAsShop({ ...shop, name: 'Published' });
}

/** One machine on which only weighted lateness counts. `due` in minutes; 0 makes lateness the time of completion. */
export function oneMachine(jobs: readonly { minutes: number; due: number; weight?: number }[]): Shop {
  const shop = flowShop(jobs.map(({ minutes }) => [minutes]));
  return {
    ...shop,
    weights: { ...shop.weights, lateness: 1, finish: 0 },
    jobs: shop.jobs.map((job, j) => ({ ...job, due: after(jobs[j]!.due), weight: jobs[j]!.weight ?? 1 })),
  };
}

/** Equal machines loaded on the table by one person who is always there and needs no time to walk. */
export function tables(
  machines: number,
  jobs: readonly { readonly load: number; readonly cut: number; readonly unload: number }[],
): Shop {
  const { weights, zone, planFrom } = flowShop([[1]]);
  const ids = Array.from({ length: machines }, (_, m) => `M${m + 1}`);
  return shopSchema.parse({
    format: 'nightload-shop',
    version: 1,
    name: 'One person, several tables',
    zone,
    planFrom,
    horizonDays: 2,
    weights,
    walking: { usual: 0 },
    people: [
      {
        id: 'Server',
        hours: [{ days: ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'], from: '00:00', to: '24:00' }],
      },
    ],
    machines: ids.map((id) => ({ id, kind: 'mill' })),
    jobs: jobs.map(({ load, cut, unload }, j) => ({
      id: `J${j + 1}`,
      due: after(1440),
      route: [{ id: '1', machines: ids.map((machine) => ({ machine, cycle: cut })), load, unload }],
    })),
  });
}

export interface Planned {
  readonly plan: Plan;
  readonly verdict: Verdict;
  /** Minutes until the last run is off. */
  readonly makespan: number;
  /** Weighted minutes late. */
  readonly lateness: number;
}

/** The ordinary engine with a seed and a number of steps, and what the referee says of its plan. */
export async function planned(shop: Shop, { steps = 5_000, seed = 1 } = {}): Promise<Planned> {
  const plan = await planShop(shop, {
    at: START,
    seconds: Number.POSITIVE_INFINITY,
    steps,
    seed,
    clock: () => performance.now(),
  });
  const verdict = referee(shop, plan);
  return {
    plan,
    verdict,
    makespan: Math.round(verdict.cost.finish * 60),
    lateness: Math.round(verdict.cost.lateness * 60),
  };
}
