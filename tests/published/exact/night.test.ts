import { beforeAll, describe, expect, it } from 'vitest';
import { planShop } from '../../../core/engine';
import { referee } from '../../../core/referee';
import { faultsOf, type Plan } from '../../../core/shop';
import { nightOf, type Shape } from './generate';
import { MOMENT, type NightCase, shopOf } from './night-case';
import { planOf } from './night-plan';
import { NightProgram } from './night-program';

/**
 * Small nights of our own, planned by the engine and solved exactly by HiGHS, a general-purpose solver, from a model
 * that shares nothing with the engine. Only lateness, hours cut tonight and the finish have a price: rounds and extra
 * hours are not linear in the times.
 */
interface Row {
  readonly seed: number;
  readonly shape: Shape;
}

/** Lateness, then the finish. */
const IN_TIME = { lateness: 1, tonight: 0, finish: 0.01 };
/** The weights a shop begins with. */
const BY_NIGHT = { lateness: 1, tonight: 2, finish: 0.01 };

const ROWS: readonly Row[] = [
  { seed: 2, shape: { weights: IN_TIME } },
  { seed: 8, shape: { weights: IN_TIME } },
  { seed: 1, shape: { weights: IN_TIME, table: true } },
  { seed: 8, shape: { weights: IN_TIME, table: true } },
  { seed: 10, shape: { weights: IN_TIME, table: true } },
  { seed: 6, shape: { weights: IN_TIME, cell: true } },
  { seed: 10, shape: { weights: IN_TIME, cell: true } },
  { seed: 7, shape: { weights: IN_TIME, routes: true } },
  { seed: 8, shape: { weights: IN_TIME, routes: true } },
  { seed: 5, shape: { weights: IN_TIME, checks: true } },
  { seed: 7, shape: { weights: IN_TIME, checks: true } },
  { seed: 8, shape: { weights: IN_TIME, pause: true, table: true } },
  { seed: 5, shape: { weights: IN_TIME, closed: true } },
  { seed: 11, shape: { weights: IN_TIME, closed: true } },
  { seed: 14, shape: { weights: BY_NIGHT } },
  { seed: 17, shape: { weights: BY_NIGHT } },
  { seed: 8, shape: { weights: BY_NIGHT, table: true } },
  { seed: 19, shape: { weights: BY_NIGHT, table: true } },
  { seed: 22, shape: { weights: BY_NIGHT, table: true } },
  { seed: 12, shape: { weights: BY_NIGHT, cell: true } },
  { seed: 2, shape: { weights: BY_NIGHT } },
  { seed: 1, shape: { weights: BY_NIGHT, table: true } },
  { seed: 15, shape: { weights: BY_NIGHT, cell: true } },
  { seed: 1, shape: { weights: BY_NIGHT, routes: true } },
  { seed: 6, shape: { weights: IN_TIME } },
  { seed: 4, shape: { weights: IN_TIME, closed: true } },
  { seed: 9, shape: { weights: IN_TIME, checks: true } },
];

interface Exact {
  readonly optimum: number;
  /** A plan that costs no more. */
  readonly plan: Plan;
}

async function solve(night: NightCase): Promise<Exact> {
  const program = new NightProgram(night);
  const solution = await program.solve();
  expect(solution.ending).toBe('optimal');
  return { optimum: solution.objective, plan: planOf(night, program.runs, solution.values) };
}

async function planByEngine(night: NightCase): Promise<Plan> {
  return planShop(shopOf(night), {
    at: MOMENT,
    seconds: Number.POSITIVE_INFINITY,
    steps: 8_000,
    seed: 1,
    clock: () => performance.now(),
  });
}

function titled(row: Row) {
  const { weights, ...extras } = row.shape;
  const besides = Object.keys(extras).join(' and ');
  const aim = weights.tonight > 0 ? 'to cut by night' : 'to be in time';
  return { ...row, title: `night ${row.seed}${besides === '' ? '' : ` with ${besides}`}, ${aim}` };
}

describe.each(ROWS.map(titled))('$title', ({ seed, shape }) => {
  const night = nightOf(seed, shape);
  const shop = shopOf(night);
  let exact: Exact;
  let plan: Plan;

  beforeAll(async () => {
    exact = await solve(night);
    plan = await planByEngine(night);
  }, 120_000);

  it('has an exact plan that is legal and costs what the model says', () => {
    expect(faultsOf(shop, MOMENT).filter((fault) => fault.level === 'error')).toEqual([]);
    const { cost } = referee(shop, exact.plan);
    expect(referee(shop, { ...exact.plan, cost }).breaches).toEqual([]);
    expect(cost.total).toBeCloseTo(exact.optimum, 4);
  });

  it('has a legal plan by the engine, no cheaper than the exact optimum', () => {
    expect(referee(shop, plan).breaches).toEqual([]);
    expect(plan.cost.total).toBeGreaterThan(exact.optimum - 1e-4);
  });

  it('is planned at the cost of the exact optimum', () => {
    expect(plan.cost.total).toBeCloseTo(exact.optimum, 4);
  });

  it('has no bound above the exact optimum', () => {
    expect(plan.bound!.total).toBeLessThan(exact.optimum + 1e-4);
  });
});

describe('what no plan can beat', () => {
  const aims = {
    lateness: { lateness: 1, tonight: 0, finish: 0 },
    tonight: { lateness: 0, tonight: 1, finish: 0 },
    finish: { lateness: 0, loaded: 0, tonight: 0, finish: 1 },
  };

  it.each([
    { seed: 8, shape: {} },
    { seed: 8, shape: { table: true } },
    { seed: 10, shape: { cell: true } },
    { seed: 7, shape: { routes: true } },
    { seed: 5, shape: { checks: true } },
  ])('in lateness, hours by night and finish is never beaten by an exact plan: night $seed, $shape', async (row) => {
    const { bound } = await planByEngine(nightOf(row.seed, { ...row.shape, weights: BY_NIGHT }));
    const best = async (aim: keyof typeof aims) =>
      (await solve(nightOf(row.seed, { ...row.shape, weights: aims[aim] }))).optimum;
    expect(bound!.lateness).toBeLessThan((await best('lateness')) + 1e-4);
    expect(bound!.tonight).toBeGreaterThan(-(await best('tonight')) - 1e-4);
    expect(bound!.finish).toBeLessThan((await best('finish')) + 1e-4);
  });
});
