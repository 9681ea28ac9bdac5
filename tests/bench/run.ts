import { referee } from '../../core/referee';
import type { Plan, Shop } from '../../core/shop';
import { createSolver, type PlanningJob, type Solver, workerBeside } from '../../main/solver';
import { NIGHT_SIZES, nightShop } from './night-generator';
import type { Moment } from './statistics';

/** One planning run, every plan it told of refereed. */
export interface Run {
  readonly plan: Plan;
  /** The costs told of, falling, and when, seconds since the shop was given; the last is the plan's. */
  readonly moments: readonly Moment[];
  /** When the first plan was told of. */
  readonly firstSeconds: number;
  /** When the search for better plans began, after the bound, and when all was done. */
  readonly searchFrom: number;
  readonly seconds: number;
  /** The most memory seen, megabytes. */
  readonly memory: number;
  /** What the referee found wrong with any plan, said once each; a run with any has no times to report. */
  readonly breaches: readonly string[];
}

/** The threads are kept from one instance to the next, as the window keeps them. */
let pool: { readonly workers: number; readonly solver: Solver } | null = null;

/**
 * Plans the shop with workers side by side. The referee works in this thread while they search: its time is not counted,
 * but where there are no more cores than workers it takes a little of theirs.
 */
export async function measure(shop: Shop, seconds: number, seed: number, workers = 1): Promise<Run> {
  const solver = await solverOf(workers);
  const moments: Moment[] = [];
  const breaches = new Set<string>();
  let searchFrom: number | null = null;
  let memory = 0;
  const started = performance.now();
  const now = () => (performance.now() - started) / 1000;
  const judge = (plan: Plan): void => {
    for (const breach of referee(shop, plan).breaches) breaches.add(breach.say);
    memory = Math.max(memory, process.memoryUsage().rss / 1e6);
  };

  const plan = await solver.solve(jobOf(shop, seconds, seed), {
    progress: ({ phase }) => {
      if (phase !== 'construct') searchFrom ??= now();
    },
    better: (found) => {
      moments.push({ seconds: now(), total: found.cost.total });
      judge(found);
    },
    lost: (say) => breaches.add(say),
  });
  const whole = now();
  judge(plan);
  return {
    plan,
    moments,
    firstSeconds: moments[0]?.seconds ?? whole,
    searchFrom: searchFrom ?? whole,
    seconds: whole,
    memory,
    breaches: [...breaches],
  };
}

/** Longest search before it is stopped: what a stop takes hangs on the size of the shop, not on how long it was planned. */
const MOST_BEFORE_STOP = 3;

/** Milliseconds from a stop, after `seconds` of search or less, to the plan; null where the search has ended by then. */
export async function millisecondsToStop(
  shop: Shop,
  seconds: number,
  seed: number,
  workers: number,
): Promise<number | null> {
  const solver = await solverOf(workers);
  let asked: number | null = null;
  let timer: NodeJS.Timeout | null = null;
  const plan = await solver.solve(jobOf(shop, 600, seed), {
    progress({ phase }) {
      if (phase !== 'improve') return;
      timer ??= setTimeout(() => {
        asked = performance.now();
        solver.stop();
      }, 1000 * Math.min(seconds, MOST_BEFORE_STOP));
    },
  });
  const answered = performance.now();
  if (timer !== null) clearTimeout(timer);
  return asked === null || plan.search.ending !== 'stopped' ? null : answered - asked;
}

/** Ends the threads, without which the program would not end. */
export async function endWorkers(): Promise<void> {
  await pool?.solver.close();
  pool = null;
}

async function solverOf(workers: number): Promise<Solver> {
  if (pool?.workers === workers) return pool.solver;
  await endWorkers();
  const solver = createSolver(workerBeside(new URL('../../main/seat.ts', import.meta.url).href), workers);
  pool = { workers, solver };
  // Starts the threads and loads the linear programs' solver, so that the first instance is measured as the others are.
  await solver.solve({ ...jobOf(nightShop(NIGHT_SIZES[0]!, 1), 60, 1), steps: 1 }, {});
  return solver;
}

function jobOf(shop: Shop, seconds: number, seed: number): PlanningJob {
  return { shop, at: shop.planFrom!, seconds, seed, previous: null };
}
