import { jobShopAsShop } from '../../core/exchange';
import { type Shop, shopSchema } from '../../core/shop';
import { WEEKDAYS } from '../../core/time';

/** A job as the person and one of the machines see it; machines are numbered from 0. */
export interface ServedJob {
  readonly machines: readonly number[];
  readonly load: number;
  readonly cut: number;
  readonly unload: number;
}

/**
 * Tables that one person loads and unloads and that cut alone in between; walking takes no time, and only the finish
 * counts. Each route is done step by step.
 */
export function oneServerShop(name: string, machines: number, routes: readonly (readonly ServedJob[])[]): Shop {
  // One job shop whose operations take all the minutes gives the horizon, the moment and the weights.
  const plain = jobShopAsShop({
    name,
    machines,
    jobs: routes.map((route) =>
      route.map(({ machines: able, load, cut, unload }) => ({
        alternatives: able.map((machine) => ({ machine, minutes: load + cut + unload })),
      })),
    ),
  });
  const shop = shopSchema.parse({
    ...plain,
    machines: plain.machines.map(({ id }) => ({ id, kind: 'mill', places: 0 })),
    people: [{ id: 'Server', hours: [{ days: [...WEEKDAYS], from: '00:00', to: '24:00' }] }],
    jobs: plain.jobs.map((job, j) => ({
      ...job,
      route: job.route.map((operation, o) => {
        const { machines: able, load, cut, unload } = routes[j]![o]!;
        // The schema asks for a minute; some published jobs run for none.
        const cycle = Math.max(1, cut);
        return { ...operation, machines: able.map((m) => ({ machine: `M${m + 1}`, cycle })), load, unload };
      }),
    })),
  });
  return {
    ...shop,
    jobs: shop.jobs.map((job, j) => ({
      ...job,
      route: job.route.map((operation, o) => ({
        ...operation,
        machines: operation.machines.map(({ machine }) => ({ machine, cycle: routes[j]![o]!.cut })),
      })),
    })),
  };
}
