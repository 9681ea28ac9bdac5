import { planShop } from '../../core/engine';
import { NightStudy } from '../../core/night';
import { demoShop, type Shop } from '../../core/shop';
import { isWanted, type Request } from './arguments';
import { type NightSize, nightShop } from './night-generator';
import { BadRequest } from './refusal';
import type { Print, Report } from './report';
import { type Column, figure, heading, line } from './table';

const NIGHTS = 10_000;
const TRIES = 3;

const SIZES: readonly NightSize[] = [
  { machines: 4, runs: 60 },
  { machines: 16, runs: 400 },
  { machines: 50, runs: 2000 },
];

const COLUMNS: readonly Column[] = [
  { title: 'shop', width: 8, align: 'left' },
  { title: 'runs', width: 5, align: 'right' },
  { title: 'loaded h', width: 8, align: 'right' },
  { title: 'expected', width: 8, align: 'right' },
  { title: 'ms', width: 6, align: 'right' },
];

/** Plays 10,000 nights of a plan of the demo shop and of generated ones with odds, checks and a shared cause. */
export async function benchSimulate(request: Request, print: Print): Promise<Report> {
  const shops = [
    { name: 'demo', shop: demoShop('2026-11-02') },
    ...SIZES.map((size) => ({ name: `${size.machines}/${size.runs}`, shop: withOdds(nightShop(size, request.seed)) })),
  ].filter(({ name }) => isWanted(request.only, name));
  if (shops.length === 0) throw new BadRequest('No such shop; there are demo, 4/60, 16/400 and 50/2000.');
  print(`simulate: ${NIGHTS} nights on one core, the middle one of ${TRIES} tries, seed ${request.seed}\n`);
  print(heading(COLUMNS));
  const rows: Record<string, unknown>[] = [];
  for (const { name, shop } of shops) {
    const plan = await planShop(shop, {
      ...{ at: shop.planFrom ?? '', seconds: 60, steps: 2_000, seed: request.seed, allocate: false },
      clock: () => performance.now(),
    });
    const tries = Array.from({ length: TRIES }, () => {
      const began = performance.now();
      const study = new NightStudy(shop, plan, { nights: NIGHTS, seed: request.seed });
      study.play(NIGHTS);
      const outcome = study.outcome();
      return { outcome, milliseconds: performance.now() - began };
    }).sort((a, b) => a.milliseconds - b.milliseconds);
    const { outcome, milliseconds } = tries[1]!;
    const { loaded, expected } = outcome;
    rows.push({ shop: name, runs: outcome.runs.length, loaded, expected, milliseconds });
    print(
      line(COLUMNS, [name, `${outcome.runs.length}`, figure(loaded, 1), figure(expected, 1), figure(milliseconds, 0)]),
    );
  }
  print('\nruns: those that cut tonight. ms: from the plan to its outcome.');
  return { rows, sets: [], failures: [] };
}

function withOdds(shop: Shop): Shop {
  const checks = [{ name: 'Width', chance: 0.1, repeat: 10, most: 2 }];
  return {
    ...shop,
    night: { ...shop.night, shared: [{ name: 'Coolant', chance: 0.01, machines: [] }] },
    jobs: shop.jobs.map((job) => ({
      ...job,
      route: job.route.map((operation) => ({ ...operation, odds: { block: 0.02, loss: 0.01 }, checks })),
    })),
  };
}
