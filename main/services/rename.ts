import type { Operation, Shop, TableName } from '../../core/shop';

/** The shop with every mention of `from` in `table` changed to `to`; the row itself is changed by the caller. */
export function renamed(shop: Shop, table: TableName, from: string, to: string): Shop {
  const swap = (id: string): string => (id === from ? to : id);
  switch (table) {
    case 'machines':
      return {
        ...shop,
        pallets: shop.pallets.map((pallet) => ({ ...pallet, machines: pallet.machines.map(swap) })),
        ...eachOperation(shop, (operation) => ({
          ...operation,
          machines: operation.machines.map((choice) => ({ ...choice, machine: swap(choice.machine) })),
        })),
        floor: shop.floor.map((entry) => ({ ...entry, machine: entry.machine === null ? null : swap(entry.machine) })),
        night: {
          ...shop.night,
          shared: shop.night.shared.map((cause) => ({ ...cause, machines: cause.machines.map(swap) })),
        },
      };
    case 'pallets':
      return {
        ...shop,
        floor: shop.floor.map((entry) => ({ ...entry, pallet: entry.pallet === null ? null : swap(entry.pallet) })),
      };
    case 'cells':
      return {
        ...shop,
        machines: shop.machines.map((machine) => ({
          ...machine,
          cell: machine.cell === null ? null : swap(machine.cell),
        })),
      };
    case 'tools':
      return {
        ...shop,
        machines: shop.machines.map((machine) => ({
          ...machine,
          magazine: machine.magazine.map((slot) => ({ ...slot, tool: swap(slot.tool) })),
        })),
        ...eachOperation(shop, (operation) => ({
          ...operation,
          tools: operation.tools.map((use) => ({ ...use, tool: swap(use.tool) })),
          // A tool under another name is still the one the proof was earned with.
          proof: operation.proof && { ...operation.proof, tools: operation.proof.tools?.map(swap) ?? null },
        })),
      };
    case 'jobs':
      return {
        ...shop,
        floor: shop.floor.map((entry) => {
          const swapIn = (run: string): string => {
            const [job = '', ...rest] = run.split('/');
            return [swap(job), ...rest].join('/');
          };
          return { ...entry, run: swapIn(entry.run), after: entry.after === null ? null : swapIn(entry.after) };
        }),
      };
    // Nothing else names a person, a shift or a family of parts.
    case 'people':
    case 'shifts':
    case 'templates':
      return shop;
  }
}

function eachOperation(shop: Shop, change: (operation: Operation) => Operation): Pick<Shop, 'jobs' | 'templates'> {
  return {
    jobs: shop.jobs.map((job) => ({ ...job, route: job.route.map(change) })),
    templates: shop.templates.map((template) => ({ ...template, route: template.route.map(change) })),
  };
}
