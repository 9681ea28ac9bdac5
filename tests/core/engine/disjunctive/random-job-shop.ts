import { type MachineShop, machineShopOf } from '../../../../core/engine/disjunctive';
import { type JobShop, jobShopAsShop } from '../../../../core/exchange';
import { problemOf } from '../../../../core/problem';
import { numbers } from '../random-shop';

/** Jobs of unequal length that may come to a machine more than once, with one to three machines to choose from. */
export function randomJobShop(seed: number): JobShop {
  const pick = numbers(seed);
  const machines = 2 + pick(4);
  const jobs = Array.from({ length: 2 + pick(6) }, () =>
    Array.from({ length: 1 + pick(6) }, () => ({
      alternatives: Array.from({ length: 1 + pick(3) }, (_, i) => ({
        machine: (pick(machines) + i) % machines,
        minutes: 1 + pick(30),
      })).filter((a, i, all) => all.findIndex((b) => b.machine === a.machine) === i),
    })),
  );
  return { name: `random ${seed}`, machines, jobs };
}

export function randomMachineShop(seed: number, operators = 0): MachineShop {
  const shop = jobShopAsShop(randomJobShop(seed), operators);
  return machineShopOf(problemOf(shop, shop.planFrom!))!;
}

/** Job after job, each run with its first option. */
export function jobByJob(shop: MachineShop): { order: Int32Array; option: Int32Array } {
  return {
    order: Int32Array.from({ length: shop.count }, (_, run) => run),
    option: shop.optionFirst.slice(0, shop.count),
  };
}
