import type { Operation } from '../../../core/shop';

/** Machines of a route in order: `M1/M2, G1`. */
export function routeText(route: readonly Operation[]): string {
  return route.map((operation) => operation.machines.map((m) => m.machine).join('/')).join(', ');
}
