import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { machineShopOf } from '../../../../core/engine/disjunctive';
import { CrewTabu } from '../../../../core/engine/disjunctive/crew-tabu';
import { CrewTiming } from '../../../../core/engine/disjunctive/crew-timing';
import { Random } from '../../../../core/engine/random';
import { jobShopAsShop, readJobShop } from '../../../../core/exchange';
import { problemOf } from '../../../../core/problem';
import { numbers } from '../random-shop';
import { jobByJob, randomMachineShop } from './random-job-shop';

/** An order in which each run's predecessor comes before it, by chance. */
function anyOrder(shop: ReturnType<typeof randomMachineShop>, pick: (below: number) => number): Int32Array {
  const ready = Array.from({ length: shop.count }, (_, run) => run).filter((run) => shop.before[run]! < 0);
  const order: number[] = [];
  while (ready.length > 0) {
    const [run] = ready.splice(pick(ready.length), 1);
    order.push(run!);
    if (shop.after[run!]! >= 0) ready.push(shop.after[run!]!);
  }
  return Int32Array.from(order);
}

describe('the timing of a shop with operators', () => {
  it('marks schedules alike exactly if every run ends alike in them', () => {
    let alike = 0;
    let different = 0;
    for (let seed = 1; seed <= 100; seed++) {
      const shop = randomMachineShop(seed, 1 + (seed % 3));
      const pick = numbers(seed);
      const { option } = jobByJob(shop);
      const [one, other] = [new CrewTiming(shop), new CrewTiming(shop)];
      for (let i = 0; i < 30; i++) {
        one.load(anyOrder(shop, pick), option);
        other.load(anyOrder(shop, pick), option);
        const isAlike = one.end.every((end, run) => end === other.end[run]);
        expect(one.mark === other.mark, `shop ${seed}`).toBe(isAlike);
        if (isAlike) alike++;
        else different++;
      }
    }
    expect(alike).toBeGreaterThan(20);
    expect(different).toBeGreaterThan(1_000);
  });

  it('times and marks the order that stands, tried anew from any place on, as it stands', () => {
    for (let seed = 1; seed <= 60; seed++) {
      const shop = randomMachineShop(seed, 1 + (seed % 4));
      const timing = new CrewTiming(shop);
      timing.load(anyOrder(shop, numbers(seed)), jobByJob(shop).option);
      for (let from = 0; from < shop.count; from++) {
        expect(timing.makespanWith(timing.order, from, shop.count - 1), `shop ${seed}`).toBe(timing.makespan);
        expect(timing.trialMark).toBe(timing.mark);
      }
    }
  });
});

describe('the tabu search with operators', () => {
  it('goes on to find better sequences after its first 400 moves, rather than round in a circle', () => {
    const text = readFileSync(new URL('../../../published/jobshop/instances/ft10.txt', import.meta.url), 'utf8');
    const read = readJobShop(text, 'ft10');
    if (!read.ok) throw new Error(read.faults[0]?.say);
    const shop = jobShopAsShop(read.value, 6);
    const machineShop = machineShopOf(problemOf(shop, shop.planFrom!))!;
    let better = 0;
    for (let seed = 1; seed <= 5; seed++) {
      const tabu = new CrewTabu(machineShop, new Random(seed));
      tabu.begin(anyOrder(machineShop, numbers(seed)), jobByJob(machineShop).option);
      const bestAfter = (moves: number) => {
        for (let i = 0; i < moves; i++) tabu.move();
        return tabu.best;
      };
      const soon = bestAfter(400);
      if (bestAfter(6_000) < soon) better++;
    }
    expect(better).toBeGreaterThanOrEqual(3);
  });
});
