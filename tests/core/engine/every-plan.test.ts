import { expect, it } from 'vitest';
import { referee } from '../../../core/referee';
import { planned } from './planned';
import { randomShop } from './random-shop';

const SHOPS = 10_000;

it('passes the referee with every plan of 10,000 random shops, changed a few times each', async () => {
  let runs = 0;
  for (let seed = 1; seed <= SHOPS; seed++) {
    const { shop, at } = randomShop(seed);
    const plan = await planned(shop, at, 20, { seed, allocate: false, clock: () => 0 });
    const { breaches } = referee(shop, plan);
    if (breaches.length > 0) expect(breaches, `shop ${seed}`).toEqual([]);
    runs += plan.runs.length;
  }
  expect(runs).toBeGreaterThan(100_000);
}, 300_000);
