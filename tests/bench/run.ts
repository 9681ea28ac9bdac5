import { planShop } from '../../core/engine';
import { referee } from '../../core/referee';
import type { Plan, Shop } from '../../core/shop';
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

/** Plans the shop in this thread. The referee's time is not counted. */
export async function measure(shop: Shop, seconds: number, seed: number): Promise<Run> {
  const moments: Moment[] = [];
  const breaches = new Set<string>();
  let searchFrom: number | null = null;
  let memory = 0;
  let refereeing = 0;
  const clock = () => performance.now() - refereeing;
  const started = clock();
  const now = () => (clock() - started) / 1000;

  const judge = (plan: Plan): void => {
    const at = now();
    const began = performance.now();
    for (const breach of referee(shop, plan).breaches) breaches.add(breach.say);
    const last = moments.at(-1);
    if (last === undefined || plan.cost.total < last.total - 1e-9)
      moments.push({ seconds: at, total: plan.cost.total });
    memory = Math.max(memory, process.memoryUsage().rss / 1e6);
    refereeing += performance.now() - began;
  };

  const plan = await planShop(shop, {
    at: shop.planFrom!,
    seconds,
    seed,
    clock,
    report: (progress) => {
      if (progress.phase !== 'construct') searchFrom ??= now();
      if (progress.plan !== null) judge(progress.plan);
    },
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
