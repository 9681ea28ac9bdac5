import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { jobShopAsShop } from '../../core/exchange';
import { type Shop, shopSchema } from '../../core/shop';
import { WEEKDAYS } from '../../core/time';
import type { Problem } from './catalogue';
import { BadRequest } from './refusal';

const makespan = z.number().int().nonnegative();
const boundsSchema = z.array(
  z.object({
    name: z.string().regex(/^[\w-]+$/),
    lower: makespan,
    upper: makespan,
    /** Proved by whoever assembled the folder, not published. */
    computedOptimal: makespan.nullish(),
    /** What the longest job, the busiest machine or the work shared among all workers takes. */
    trivialLower: makespan,
  }),
);

const BOUNDS = 'worker-flexible-bounds.json';
const INSTANCES = 'worker-flexible';

/** Job shops whose operations need a machine and a worker throughout, from a folder of instances with their bounds. */
export function attendedProblems(folder: string): Problem[] {
  const file = join(folder, BOUNDS);
  if (!existsSync(file)) throw new BadRequest(`There is no table of bounds ${file}; name a folder that has one.`);
  const parsed = boundsSchema.safeParse(JSON.parse(readFileSync(file, 'utf8')));
  if (!parsed.success) throw new BadRequest(`${file} is no table of bounds: ${parsed.error.issues[0]?.message}.`);
  return parsed.data.map(({ name, lower, upper, computedOptimal, trivialLower }) => ({
    ...{ name, operators: 0, upper, lower: Math.max(lower, computedOptimal ?? 0) },
    evidence: trivialLower === upper ? 'trivial' : 'table',
    set: `attended, ${name.replace(/\d+$/, '')}`,
    shop: () => {
      const instance = join(folder, INSTANCES, `${name}.txt`);
      if (!existsSync(instance)) throw new BadRequest(`There is no instance ${instance}.`);
      return attendedShop(name, readAttended(readFileSync(instance, 'utf8'), instance));
    },
  }));
}

/** Machines and workers are numbered from 0. */
export interface AttendedJobShop {
  readonly machines: number;
  readonly workers: number;
  /** By job, by operation: who can do it where, and in how many minutes. */
  readonly jobs: readonly (readonly (readonly Staffing[])[])[];
}

export interface Staffing {
  readonly machine: number;
  readonly worker: number;
  readonly minutes: number;
}

/**
 * First line: jobs, machines, workers. Then by job the number of operations, by operation the number of machines, by
 * machine its number, the number of workers and so many pairs of worker and minutes. Numbers count from 0.
 */
export function readAttended(text: string, file: string): AttendedJobShop {
  const numbers = text
    .split(/\s+/)
    .filter((word) => word !== '')
    .map(Number);
  let next = 0;
  const take = (what: string, least: number, below: number): number => {
    const value = numbers[next++];
    if (value !== undefined && Number.isInteger(value) && value >= least && value < below) return value;
    throw new BadRequest(`${file}: number ${next} is ${value ?? 'missing'}, no ${what}.`);
  };
  const several = <T>(count: number, one: () => T): T[] => Array.from({ length: count }, one);
  const size = (what: string) => take(what, 1, 10_000);
  const [jobs, machines, workers] = [size('number of jobs'), size('number of machines'), size('number of workers')];
  const operation = (): Staffing[] =>
    several(size('number of machines'), () => {
      const machine = take('machine', 0, machines);
      return several(size('number of workers'), () => ({
        machine,
        worker: take('worker', 0, workers),
        minutes: take('number of minutes', 1, 1_000_000),
      }));
    }).flat();
  const read = { machines, workers, jobs: several(jobs, () => several(size('number of operations'), operation)) };
  if (next < numbers.length) throw new BadRequest(`${file}: numbers are left over after the last job.`);
  return read;
}

/**
 * A cycle depends on the machine alone, never on the person; so each pair of machine and worker is a bench of its own
 * that only this worker can work at. The machine they all stand for is a pallet that fits these benches and no others: a
 * run holds it from start to end, so the machine does one thing at a time, as does the worker. No walk, no load. A legal
 * plan is thus a schedule of the published model and the other way round, with the same makespan.
 */
export function attendedShop(name: string, { machines, workers, jobs }: AttendedJobShop): Shop {
  const benchOf = (machine: number, worker: number) => `M${machine + 1}-W${worker + 1}`;
  const all = <T>(count: number, one: (index: number) => T): T[] => Array.from({ length: count }, (_, i) => one(i));
  const plain = jobShopAsShop({
    name,
    machines,
    jobs: jobs.map((job) =>
      job.map((operation) => ({ alternatives: operation.map(({ machine, minutes }) => ({ machine, minutes })) })),
    ),
  });
  return shopSchema.parse({
    ...plain,
    people: all(workers, (w) => ({
      id: `W${w + 1}`,
      skills: [`W${w + 1}`],
      hours: [{ days: [...WEEKDAYS], from: '00:00', to: '24:00' }],
    })),
    machines: all(machines, (m) =>
      all(workers, (w) => ({ id: benchOf(m, w), kind: 'bench' as const, skill: `W${w + 1}` })),
    ).flat(),
    pallets: all(machines, (m) => ({
      id: `M${m + 1}`,
      fixture: 'MACHINE',
      machines: all(workers, (w) => benchOf(m, w)),
    })),
    jobs: plain.jobs.map((job, j) => ({
      ...job,
      route: job.route.map((operation, o) => ({
        ...operation,
        fixture: 'MACHINE',
        machines: jobs[j]![o]!.map(({ machine, worker, minutes }) => ({
          machine: benchOf(machine, worker),
          cycle: minutes,
        })),
      })),
    })),
  });
}
