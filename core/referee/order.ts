import type { Context } from './context';
import type { Stay } from './stay';
import { type Finding, finding } from './verdict';
import { at } from './words';

/** Rule 10, locks to an order: on the machine of the run named, and only when that one's cut has ended. */
export function checkOrder(ctx: Context): Finding[] {
  const orders = ordersIn(ctx);
  if (orders.size === 0) return [];
  const cannotHold = unsuitedRuns(ctx, orders);
  return ctx.stays.flatMap((stay) => {
    const first = orders.get(stay.planned.run);
    if (first === undefined) return [];
    const broken = whatIsBroken(ctx, stay, first);
    if (broken === null) return [];
    const { run } = stay.planned;
    const excuse = cannotHold.has(run) ? 'floor' : 'held';
    return [
      finding(10, broken.code, [run, first], `Run ${run} is locked behind ${first}; ${broken.say}`, excuse, [run]),
    ];
  });
}

/** The run each locked one is to follow. */
function ordersIn({ floor, needs }: Context): Map<string, string> {
  const orders = new Map<string, string>();
  for (const [run, { state, after }] of floor) {
    if (state === 'locked' && after !== null && needs.has(after)) orders.set(run, after);
  }
  return orders;
}

function whatIsBroken(ctx: Context, { planned }: Stay, first: string): { code: string; say: string } | null {
  const done = ctx.floor.get(first);
  const before = ctx.stayOf.get(first)?.planned;
  const where = done?.state === 'done' ? done.machine : before?.machine;
  if (where !== undefined && where !== null && where !== planned.machine) {
    return { code: 'order-machine', say: `it is on ${planned.machine}, that one on ${where}.` };
  }
  if (done?.state === 'done') return null;
  if (before === undefined) {
    return ctx.left.has(first) ? { code: 'order-left', say: 'that one is left out, and it is planned.' } : null;
  }
  if (planned.start >= before.end) return null;
  const say = `it starts at ${at(ctx.clock, planned.start)}, and that one's cut ends at ${at(ctx.clock, before.end)}.`;
  return { code: 'order-start', say };
}

/** Runs that such locks tie to others with no machine that suits them all. */
function unsuitedRuns(ctx: Context, orders: ReadonlyMap<string, string>): Set<string> {
  const tied = new Map<string, string[]>();
  const tie = (a: string, b: string): void => {
    tied.set(a, [...(tied.get(a) ?? []), b]);
  };
  for (const [run, first] of orders) {
    tie(run, first);
    tie(first, run);
  }
  const unsuited = new Set<string>();
  const seen = new Set<string>();
  for (const run of tied.keys()) {
    if (seen.has(run)) continue;
    const together = new Set([run]);
    // A set grows while it is walked: this reaches everything that hangs together.
    for (const one of together) for (const other of tied.get(one) ?? []) together.add(other);
    const common = [...together].reduce<readonly string[] | null>((left, one) => {
      const suited = machinesFor(ctx, one);
      return suited === null || left === null ? (suited ?? left) : left.filter((id) => suited.includes(id));
    }, null);
    for (const one of together) {
      seen.add(one);
      if (common?.length === 0) unsuited.add(one);
    }
  }
  return unsuited;
}

/** Null if any will do: it is done, and nobody wrote down where. */
function machinesFor({ floor, needs, machines }: Context, run: string): string[] | null {
  const entry = floor.get(run);
  if (entry !== undefined && entry.machine !== null) return [entry.machine];
  if (entry?.state === 'done') return null;
  const named = needs.get(run)?.operation.machines.map(({ machine }) => machine) ?? [];
  return named.filter((id) => machines.get(id)?.inUse === true);
}
