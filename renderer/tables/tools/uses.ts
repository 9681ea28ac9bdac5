import type { Shop } from '../../../core/shop';
import { counted } from '../screen';

/** Where a kind of tool is used. */
export interface Uses {
  /** Operations that call for it, as `J-104/10`, with the minutes a full pallet takes. */
  readonly operations: readonly { readonly operation: string; readonly minutes: number }[];
  /** Machines that hold it, with the sister tools there. */
  readonly machines: readonly { readonly machine: string; readonly tools: number }[];
}

export function usesOf(shop: Shop, tool: string): Uses {
  return {
    operations: shop.jobs.flatMap((job) =>
      job.route.flatMap((operation) => {
        const uses = operation.tools.filter((use) => use.tool === tool);
        const minutes = uses.reduce((sum, use) => sum + use.minutes, 0);
        return uses.length === 0 ? [] : [{ operation: `${job.id}/${operation.id}`, minutes }];
      }),
    ),
    machines: shop.machines.flatMap((machine) => {
      const held = machine.magazine.filter((entry) => entry.tool === tool);
      const tools = held.reduce((sum, entry) => sum + entry.left.length, 0);
      return held.length === 0 ? [] : [{ machine: machine.id, tools }];
    }),
  };
}

/** `6 ops, 2 machines`, or `nowhere`. */
export function usesText({ operations, machines }: Uses): string {
  const parts = [
    ...(operations.length === 0 ? [] : [counted(operations.length, 'op')]),
    ...(machines.length === 0 ? [] : [counted(machines.length, 'machine')]),
  ];
  return parts.length === 0 ? 'nowhere' : parts.join(', ');
}
