import { describe, expect, it } from 'vitest';
import { Board } from '../../../core/engine/board';
import { Pricer } from '../../../core/engine/cost';
import { HandPrice } from '../../../core/engine/hand-price';
import { orderByLatestStart, recipeOfOrder } from '../../../core/engine/orders';
import { Repair } from '../../../core/engine/repair';
import { Settler } from '../../../core/engine/settle';
import { problemOf } from '../../../core/problem';
import { demoShop, type Shop } from '../../../core/shop';
import { nightShop } from '../../bench/night-generator';
import { randomShop } from './random-shop';

// Own shops: the demo, a generated night, and random ones with extra hours, tables, cells and benches.
const shops: { shop: Shop; at: string }[] = [
  ...[demoShop('2026-11-25'), nightShop({ machines: 8, runs: 150 }, 1)].map((shop) => ({ shop, at: shop.planFrom! })),
  ...Array.from({ length: 60 }, (_, i) => randomShop(i + 1)),
];

function firstPlan(shop: Shop, at: string) {
  const problem = problemOf(shop, at);
  const board = new Board(problem);
  const pricer = new Pricer(problem, undefined);
  const repair = new Repair(problem, board);
  board.build(recipeOfOrder(orderByLatestStart(problem)), repair.equipLoaded);
  repair.equipAnew();
  const price = () => new Pricer(problem, undefined).price(board.schedule, board.slots.people);
  pricer.price(board.schedule, board.slots.people);
  return { problem, board, pricer, price };
}

describe('the price of one hand', () => {
  it('differs from place to place as the price of the whole plan does', () => {
    let compared = 0;
    for (const { shop, at } of shops) {
      const { problem, board, pricer, price } = firstPlan(shop, at);
      const { schedule, slots } = board;
      const hands = new HandPrice(problem, schedule, pricer, slots.people);
      for (let run = 0; run < problem.runCount; run++) {
        const person = schedule.unloadPerson[run]!;
        if (schedule.placed[run] === 0 || person < 0 || board.conflicts.length > 0) continue;
        const [start, off, length] = [schedule.unloadStart[run]!, schedule.off[run]!, problem.unload[run]!];
        const spot = problem.loadSpot[problem.optionMachine[schedule.option[run]!]!]!;
        const people = slots.people[person]!;
        const here = price();
        const own = people.remove(start);
        hands.lookAt(run);
        const costAt = (after: number, from: number) =>
          hands.ofHand(person, after, from, from + length, spot) + hands.ofOff(run, from + length);
        // The next gap that is long enough, a minute after its beginning.
        let next = own;
        while (next + 1 < people.count && people.start[next + 1]! - people.end[next]! < length + 1) next++;
        if (next < people.count) {
          const later = people.end[next]! + 1;
          people.add(later, later + length, spot, run);
          schedule.off[run] = later + length;
          const there = price();
          people.remove(later);
          expect(costAt(next + 1, later) - costAt(own, start)).toBeCloseTo(there - here, 6);
          compared++;
        }
        people.add(start, off, spot, run);
        schedule.off[run] = off;
      }
    }
    expect(compared).toBeGreaterThan(500);
  });
});

describe('settling the hands', () => {
  it('makes no plan dearer, moves no cut, and keeps count of the cost', () => {
    let cheaper = 0;
    for (const { shop, at } of shops) {
      const { problem, board, pricer, price } = firstPlan(shop, at);
      if (board.conflicts.length > 0) continue;
      const { schedule, slots } = board;
      const [starts, ends, before] = [schedule.start.slice(), schedule.end.slice(), price()];
      new Settler(problem, slots, schedule, pricer).run(() => false);
      expect([schedule.start, schedule.end]).toEqual([starts, ends]);
      expect(pricer.total).toBeCloseTo(price(), 6);
      expect(pricer.total).toBeLessThanOrEqual(before + 1e-6);
      if (pricer.total < before - 1e-6) cheaper++;
    }
    expect(cheaper).toBeGreaterThan(20);
  });
});
