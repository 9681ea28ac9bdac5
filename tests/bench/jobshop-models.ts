import type { JobShop } from '../../core/exchange';
import { LinearProgramBuilder, type LinearSolution, solveLinear } from '../../core/linear';
import type { Plan, Shop } from '../../core/shop';

/** Start of each operation, by job. */
export type Starts = readonly (readonly number[])[];

/** What `jobshop.mzn` asks for. */
export function jobShopData(jobShop: JobShop): Record<string, unknown> {
  const only = jobShop.jobs.map((job) => job.map(({ alternatives }) => alternatives[0]!));
  return {
    jobs: only.length,
    machines: jobShop.machines,
    steps: only[0]!.length,
    machine: only.map((job) => job.map(({ machine }) => machine)),
    minutes: only.map((job) => job.map(({ minutes }) => minutes)),
  };
}

/**
 * The classical job shop as a mixed-integer program: of two operations on a machine one comes first (Manne, Operations
 * Research 8, 1960), the other is freed by a number large enough. Columns: the makespan, then each operation's start.
 */
export async function solveJobShopByProgram(jobShop: JobShop, seconds: number): Promise<LinearSolution> {
  const builder = new LinearProgramBuilder('minimise');
  const makespan = builder.column(1);
  const longest = jobShop.jobs.flat().reduce((sum, { alternatives }) => sum + alternatives[0]!.minutes, 0);
  const byMachine = Array.from({ length: jobShop.machines }, (): { start: number; minutes: number }[] => []);
  /** `second` starts `minutes` or more after `first`. */
  const follow = (first: number, minutes: number, second: number): number => {
    const row = builder.atLeast(minutes);
    builder.term(row, second, 1);
    builder.term(row, first, -1);
    return row;
  };
  const starts = jobShop.jobs.map((job) => job.map(() => builder.column(0, { upper: longest })));
  for (const [j, job] of jobShop.jobs.entries()) {
    for (const [s, { alternatives }] of job.entries()) {
      const { machine, minutes } = alternatives[0]!;
      const start = starts[j]![s]!;
      follow(start, minutes, starts[j]![s + 1] ?? makespan);
      byMachine[machine]!.push({ start, minutes });
    }
  }
  for (const operations of byMachine) {
    for (const [i, a] of operations.entries()) {
      for (const b of operations.slice(i + 1)) {
        const isFirst = builder.column(0, { upper: 1, integer: true });
        // a before b, or with isFirst = 0 anything; and the other way round.
        builder.term(follow(a.start, a.minutes - longest, b.start), isFirst, -longest);
        builder.term(follow(b.start, b.minutes, a.start), isFirst, longest);
      }
    }
  }
  return solveLinear(builder.build(), { solver: 'highs', seconds });
}

/** Each operation as early as it can be in the order in which a point of the program has them. */
export function startsOf(jobShop: JobShop, values: Float64Array): Starts {
  const all = jobShop.jobs.flatMap((job, j) => job.map(({ alternatives }, s) => ({ j, s, ...alternatives[0]! })));
  const order = all.map((operation, i) => ({ ...operation, at: values[i + 1]! })).toSorted((a, b) => a.at - b.at);
  const starts = jobShop.jobs.map((job) => job.map(() => 0));
  const jobAt = jobShop.jobs.map(() => 0);
  const machineAt = Array.from({ length: jobShop.machines }, () => 0);
  for (const { j, s, machine, minutes } of order) {
    const start = Math.max(jobAt[j]!, machineAt[machine]!);
    starts[j]![s] = start;
    jobAt[j] = start + minutes;
    machineAt[machine] = start + minutes;
  }
  return starts;
}

/** A plan of the job shop's shop; the cost is left for the referee to work out. */
export function planAt(shop: Shop, starts: Starts): Plan {
  return {
    ...{ format: 'nightload-plan', version: 1, shop: shop.name, now: 0, horizon: shop.horizonDays * 24 * 60 },
    clock: { zone: shop.zone, origin: Date.parse(`${shop.planFrom}Z`) },
    runs: shop.jobs.flatMap(({ id, route }, j) =>
      route.map((operation, s) => {
        const { machine, cycle } = operation.machines[0]!;
        const start = starts[j]![s]!;
        return {
          ...{ run: `${id}/${operation.id}/1`, machine, pallet: null, start, end: start + cycle },
          ...{ load: null, check: null, work: null, unload: null },
        };
      }),
    ),
    ...{ care: [], left: [], conflicts: [], bound: null },
    cost: {
      ...{ lateness: 0, loaded: 0, tonight: 0, laterNights: 0, morning: 0, rounds: 0 },
      ...{ extraHours: 0, moved: 0, flow: 0, finish: 0, total: 0 },
    },
    search: { seed: 0, steps: 0, seconds: 0, ending: 'limit' },
  };
}
