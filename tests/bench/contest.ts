import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type JobShop, jobShopAsShop } from '../../core/exchange';
import { referee } from '../../core/referee';
import type { Plan, Shop } from '../../core/shop';
import { type NightCase, shopOf } from '../published/exact/night-case';
import { planOf } from '../published/exact/night-plan';
import { NightProgram } from '../published/exact/night-program';
import { jobShopData, planAt, type Starts, solveJobShopByProgram, startsOf } from './jobshop-models';
import { type MiniZincAnswer, type MiniZincSearch, solveByMiniZinc } from './minizinc';
import { costOfModel, nightData, planOfSolution } from './night-model';
import { measure } from './run';

export const CONTENDERS = ['ours', 'highs', 'minizinc'] as const;
export type Contender = (typeof CONTENDERS)[number];

/** What did best on each model, of the solvers that MiniZinc brings along, with and without free search. */
const NIGHT_SEARCH: MiniZincSearch = { solver: 'chuffed', isFree: false };
const JOB_SHOP_SEARCH: MiniZincSearch = { solver: 'chuffed', isFree: true };

/** What a contender made of a problem; costs in the unit of the contest. */
export interface Entry {
  /** Null where it found no plan. */
  readonly cost: number | null;
  /** What it says no plan can beat. */
  readonly bound: number | null;
  readonly isProved: boolean;
  /** Null where it does not say. */
  readonly secondsToBest: number | null;
  /** Building its model included. */
  readonly seconds: number;
  /** What the referee finds wrong with its plan. */
  readonly breaches: readonly string[];
}

/** One problem and how each contender is given it. */
export interface Contest {
  readonly name: string;
  readonly set: string;
  readonly enter: Readonly<Record<Contender, (seconds: number, seed: number) => Promise<Entry>>>;
}

/** A night: the cost is the plan's total. */
export function nightContest(name: string, night: NightCase): Contest {
  const shop = shopOf(night);
  const costOf = ({ cost }: Plan) => cost.total;
  return {
    name,
    set: 'nights',
    enter: {
      ours: (seconds, seed) => ours(shop, seconds, seed, costOf, (plan) => plan.bound?.total ?? null),
      highs: async (seconds) => {
        const started = performance.now();
        const program = new NightProgram(night);
        const solution = await program.solve(left(seconds, started));
        const plan = solution.values.length === 0 ? null : planOf(night, program.runs, solution.values);
        const bound = Number.isFinite(solution.bound) ? solution.bound : null;
        return judged(shop, plan, costOf, started, { bound, isProved: solution.ending === 'optimal' });
      },
      minizinc: async (seconds) => {
        const started = performance.now();
        const answer = await solveByMiniZinc(modelText('night'), nightData(night), NIGHT_SEARCH, seconds);
        const last = answer.solutions.at(-1);
        const plan = last === undefined ? null : planOfSolution(night, last.values);
        return judged(
          shop,
          plan,
          costOf,
          started,
          saidBy(answer, (cost) => costOfModel(night, cost)),
        );
      },
    },
  };
}

/** A classical job shop: the cost is the makespan in minutes. */
export function jobShopContest(jobShop: JobShop): Contest {
  const shop = jobShopAsShop(jobShop);
  const minutes = (hours: number) => Math.round(hours * 60);
  const costOf = ({ cost }: Plan) => minutes(cost.finish);
  return {
    name: jobShop.name,
    set: 'job shops',
    enter: {
      ours: (seconds, seed) =>
        ours(shop, seconds, seed, costOf, ({ bound }) => (bound === null ? null : minutes(bound.finish))),
      highs: async (seconds) => {
        const started = performance.now();
        const solution = await solveJobShopByProgram(jobShop, left(seconds, started));
        const plan = solution.values.length === 0 ? null : planAt(shop, startsOf(jobShop, solution.values));
        const bound = Number.isFinite(solution.bound) ? Math.ceil(solution.bound - 1e-6) : null;
        return judged(shop, plan, costOf, started, { bound, isProved: solution.ending === 'optimal' });
      },
      minizinc: async (seconds) => {
        const started = performance.now();
        const answer = await solveByMiniZinc(modelText('jobshop'), jobShopData(jobShop), JOB_SHOP_SEARCH, seconds);
        const last = answer.solutions.at(-1);
        const plan = last === undefined ? null : planAt(shop, last.values.start as Starts);
        return judged(
          shop,
          plan,
          costOf,
          started,
          saidBy(answer, (cost) => cost),
        );
      },
    },
  };
}

type CostOf = (plan: Plan) => number;

async function ours(
  shop: Shop,
  seconds: number,
  seed: number,
  costOf: CostOf,
  boundOf: (plan: Plan) => number | null,
): Promise<Entry> {
  const run = await measure(shop, seconds, seed);
  return {
    cost: costOf(run.plan),
    bound: boundOf(run.plan),
    isProved: run.plan.search.ending === 'proved',
    secondsToBest: run.moments.at(-1)?.seconds ?? null,
    seconds: run.seconds,
    breaches: run.breaches,
  };
}

/** Everybody's cost is the referee's, never the contender's own. */
function judged(
  shop: Shop,
  plan: Plan | null,
  costOf: CostOf,
  started: number,
  said: { readonly bound: number | null; readonly isProved: boolean; readonly secondsToBest?: number | null },
): Entry {
  const seconds = (performance.now() - started) / 1000;
  const entry = { secondsToBest: null, ...said, seconds };
  if (plan === null) return { ...entry, cost: null, breaches: [] };
  const priced = { ...plan, cost: referee(shop, plan).cost };
  const breaches = referee(shop, priced).breaches.map(({ say }) => say);
  return { ...entry, cost: costOf(priced), breaches };
}

function saidBy({ solutions, isProved, bound }: MiniZincAnswer, costOfObjective: (objective: number) => number) {
  const last = solutions.at(-1);
  const proved = isProved && typeof last?.values._objective === 'number' ? last.values._objective : bound;
  return {
    bound: proved === null ? null : costOfObjective(proved),
    isProved,
    secondsToBest: last?.seconds ?? null,
  };
}

function left(seconds: number, started: number): number {
  return Math.max(0.1, seconds - (performance.now() - started) / 1000);
}

function modelText(name: string): string {
  return readFileSync(fileURLToPath(new URL(`./${name}.mzn`, import.meta.url)), 'utf8');
}
