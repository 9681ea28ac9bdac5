import type { MachineShop } from './machine-shop';

/** The routes of a machine shop for loops that ask no questions: `nobody`, one past the last run, stands where there is none. */
export interface Routes {
  readonly routeBefore: Int32Array;
  readonly routeAfter: Int32Array;
  /** Minutes that must pass between the run's predecessor or successor by route and the run. */
  readonly lagBefore: Int32Array;
  readonly lagAfter: Int32Array;
}

export function routesOf({ count, before, after, lag }: MachineShop): Routes {
  const neighbours = (rows: Int32Array) =>
    Int32Array.from({ length: count + 1 }, (_, run) => (run < count && rows[run]! >= 0 ? rows[run]! : count));
  const routeBefore = neighbours(before);
  const routeAfter = neighbours(after);
  return {
    routeBefore,
    routeAfter,
    lagBefore: Int32Array.from(routeBefore, (previous, run) => (previous < count ? lag[run]! : 0)),
    lagAfter: Int32Array.from(routeAfter, (next) => (next < count ? lag[next]! : 0)),
  };
}
