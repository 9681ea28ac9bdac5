import { describe, expect, it } from 'vitest';
import { Board } from '../../../core/engine/board';
import { Changes } from '../../../core/engine/changes';
import { Pricer } from '../../../core/engine/cost';
import { orderByLatestStart, recipeOfOrder } from '../../../core/engine/orders';
import { Random } from '../../../core/engine/random';
import { Repair } from '../../../core/engine/repair';
import { careActs } from '../../../core/engine/tool-ledger';
import { writePlan } from '../../../core/engine/write';
import { problemOf } from '../../../core/problem';
import { referee } from '../../../core/referee';
import { demoShop, type Plan, type Shop } from '../../../core/shop';
import { nightShop } from '../../bench/night-generator';
import { randomLockedShop, randomShop } from './random-shop';

/** A shop's first plan, and the changes that the search would try on it. */
function begin(shop: Shop, at: string) {
  const problem = problemOf(shop, at);
  const board = new Board(problem);
  const pricer = new Pricer(problem, undefined);
  const random = new Random(1);
  const repair = new Repair(problem, board);
  const changes = new Changes(problem, board, pricer, random, repair, null);
  board.build(recipeOfOrder(orderByLatestStart(problem)), repair.equipLoaded);
  repair.equipAnew();
  pricer.price(board.schedule, board.slots.people);

  const reprice = () => {
    for (const run of repair.touched.subarray(0, repair.touchedCount)) {
      pricer.mark(repair.before, run);
      pricer.mark(board.schedule, run);
    }
    for (const care of repair.touchedCares) {
      pricer.markCare(repair.before, care);
      pricer.markCare(board.schedule, care);
    }
  };
  return {
    random,
    /** The schedule as it stands as a plan, with the cost that was counted change by change. */
    plan(): Plan {
      pricer.priceMarked(board.schedule, board.slots.people);
      const cost = pricer.parts();
      const search = { seed: 1, steps: 0, seconds: 0, ending: 'limit' } as const;
      return {
        ...writePlan(
          problem,
          board.schedule,
          careActs(problem, board.slots, board.schedule),
          board.conflicts,
          new Pricer(problem, undefined),
          null,
          search,
        ),
        cost,
      };
    },
    change(): boolean {
      const isPossible = changes.make();
      reprice();
      return isPossible;
    },
    takeBack(): void {
      reprice();
      repair.takeBack();
    },
  };
}

/** Tries changes and keeps every second one; each, and each one taken back, is held against the referee. */
function audit(shop: Shop, at: string, count: number): number {
  const search = begin(shop, at);
  let standing = search.plan();
  let moved = 0;
  for (let i = 0; i < count; i++) {
    const isPossible = search.change();
    if (isPossible) {
      const plan = search.plan();
      expect(referee(shop, plan).breaches, `change ${i}`).toEqual([]);
      if (JSON.stringify(plan.runs) !== JSON.stringify(standing.runs)) moved++;
      if (search.random.next() < 0.5) {
        standing = plan;
        continue;
      }
    }
    search.takeBack();
    const back = search.plan();
    expect(back.runs, `change ${i} taken back`).toEqual(standing.runs);
    expect(back.cost.total, `change ${i} taken back`).toBeCloseTo(standing.cost.total, 6);
  }
  return moved;
}

describe('every change the search tries', () => {
  it('leaves a legal plan that costs what was counted, and can be taken back, in the demo week', () => {
    const demo = demoShop('2026-11-25');
    expect(audit(demo, demo.planFrom!, 300)).toBeGreaterThan(100);
  });

  it('does so in a shop of eight machines', () => {
    const shop = nightShop({ machines: 8, runs: 150 }, 1);
    expect(audit(shop, shop.planFrom!, 150)).toBeGreaterThan(50);
  });

  it('does so in 80 random shops over a clock change', () => {
    let moved = 0;
    for (let seed = 1; seed <= 80; seed++) {
      const { shop, at } = randomShop(seed);
      moved += audit(shop, at, 30);
    }
    expect(moved).toBeGreaterThan(800);
  });

  it('does so in 60 of them with runs locked behind others, and pallets withdrawn', () => {
    let moved = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const { shop, at } = randomLockedShop(seed);
      moved += audit(shop, at, 30);
    }
    expect(moved).toBeGreaterThan(400);
  });
});
