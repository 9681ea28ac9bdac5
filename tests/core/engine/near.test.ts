import { beforeAll, describe, expect, it } from 'vitest';
import { referee } from '../../../core/referee';
import { demoShop, faultsOf, MOVED_AFTER, type Plan, runsOf, type Shop, shopSchema } from '../../../core/shop';
import { localAt } from '../../../core/time';
import { planned } from './planned';
import { numbers, randomLockedShop, randomShop } from './random-shop';

const demo = demoShop('2026-11-25');
const AT = demo.planFrom!;
const withoutBounds = { allocate: false, clock: () => 0 };

/** The runs but one that are on another machine or more than half an hour away, or no longer planned. */
function movedRuns(from: Plan, to: Plan, but = ''): string[] {
  const now = new Map(to.runs.map((run) => [run.run, run]));
  return from.runs
    .filter(({ run, machine, start }) => {
      const there = now.get(run);
      const stays = there?.machine === machine && Math.abs(there.start - start) <= MOVED_AFTER;
      return run !== but && !stays;
    })
    .map(({ run }) => run);
}

function hoursMoved(from: Plan, to: Plan, but: string): number {
  const now = new Map(to.runs.map(({ run, start }) => [run, start]));
  const minutes = from.runs.map(({ run, start }) => (run === but ? 0 : Math.abs((now.get(run) ?? to.horizon) - start)));
  return minutes.reduce((sum, each) => sum + each, 0) / 60;
}

function withLock(shop: Shop, plan: Plan, run: string, machine: string, start: number): Shop {
  const entry = { run, state: 'locked', machine, start: localAt(plan.clock, start) };
  return { ...shop, floor: shopSchema.shape.floor.parse([...shop.floor, entry]) };
}

function runOf(plan: Plan, id: string) {
  const found = plan.runs.find(({ run }) => run === id);
  if (found === undefined) throw new Error(`${id} is not in the plan`);
  return found;
}

describe('a plan near to another one', () => {
  let week: Plan;
  beforeAll(async () => {
    week = await planned(demo, AT, 3000, withoutBounds);
  });

  it('is that plan, to the minute and the hand, where nothing has changed', async () => {
    const again = await planned(demo, AT, 0, { ...withoutBounds, near: week, released: week });
    expect(again.runs).toEqual(week.runs);
    expect(again.care).toEqual(week.care);
    const searched = await planned(demo, AT, 300, { ...withoutBounds, near: week, released: week });
    expect(searched.runs.map(({ run, machine, start }) => [run, machine, start])).toEqual(
      week.runs.map(({ run, machine, start }) => [run, machine, start]),
    );
    expect(searched.cost.total).toBeLessThanOrEqual(week.cost.total + 1e-9);
  });

  it('lets other work give way to a new job that would be late, where that is asked for', async () => {
    const [like] = demo.jobs;
    if (like === undefined) throw new Error('the demo has no job');
    const rush = { ...like, id: 'R-1', quantity: 1, due: '2026-12-01T16:00', weight: 10, overdue: false };
    const shop = { ...demo, jobs: [...demo.jobs, rush] };
    const endOf = (plan: Plan) =>
      Math.max(...plan.runs.filter(({ run }) => run.startsWith('R-1/')).map(({ end }) => end));
    const keeping = await planned(shop, AT, 300, { ...withoutBounds, near: week });
    const giving = await planned(shop, AT, 300, { ...withoutBounds, near: week, newWork: 'before' });
    for (const plan of [keeping, giving]) expect(referee(shop, plan).breaches).toEqual([]);
    expect(movedRuns(week, keeping)).toEqual([]);
    expect(movedRuns(week, giving).length).toBeGreaterThan(0);
    expect(endOf(giving)).toBeLessThan(endOf(keeping));
    expect(giving.cost.lateness).toBeLessThan(keeping.cost.lateness);
  });

  /** Runs dragged to where another one is: to another machine, to an earlier day, to a day on which they are not ready. */
  const dragged: [run: string, machine: string, to: string][] = [
    ['J-110/10/4', 'M1', 'J-115/10/1'],
    ['J-113/10/2', 'G1', 'J-116/20/1'],
    ['J-105/10/2', 'M1', 'J-115/10/1'],
    ['J-101/30/1', 'G1', 'J-116/20/1'],
  ];

  it.each(dragged)('has %s on %s where %s was, and lets the rest stay', async (run, machine, to) => {
    const start = runOf(week, to).start;
    const shop = withLock(demo, week, run, machine, start);
    const near = { ...withoutBounds, near: week, released: week };
    const mended = await planned(shop, AT, 0, near);
    const searched = await planned(shop, AT, 400, near);
    const anew = await planned(shop, AT, 400, { ...withoutBounds, previous: week, released: week });
    for (const plan of [mended, searched, anew]) {
      // The cost is the shop's own, priced against the released plan.
      expect(referee(shop, plan, week).breaches).toEqual([]);
      expect(runOf(plan, run)).toMatchObject({ machine, start });
    }
    const [first, better] = [movedRuns(week, mended, run), movedRuns(week, searched, run)];
    expect(better.length).toBeLessThanOrEqual(first.length);
    if (better.length === first.length) {
      expect(hoursMoved(week, searched, run)).toBeLessThanOrEqual(hoursMoved(week, mended, run) + 1e-9);
    }
    expect(movedRuns(week, anew, run).length).toBeGreaterThan(2 * first.length);
  });

  it('keeps a lock that cannot hold where it was put, and says what is in the way', async () => {
    const { run, start } = week.runs.find(({ machine }) => machine === 'M1')!;
    const other = runOf(week, 'J-110/10/4');
    // The mill is cutting then what was there when the plan was made.
    const shop = withLock(demo, week, other.run, 'M1', Math.max(week.now, start));
    const plan = await planned(shop, AT, 50, { ...withoutBounds, near: week });
    expect(referee(shop, plan).breaches).toEqual([]);
    expect(runOf(plan, other.run).start).toBe(Math.max(week.now, start));
    expect(plan.conflicts.find((conflict) => conflict.run === other.run)?.say).toMatch(/M1 is not free then, J-\d+/);
    expect(runOf(plan, run)).toMatchObject({ machine: 'M1', start });
  });

  it('has a bound that no plan beats, if one is asked for', async () => {
    const shop = withLock(demo, week, 'J-113/10/2', 'G1', runOf(week, 'J-116/20/1').start);
    const plan = await planned(shop, AT, 50, { near: week });
    expect(plan.bound?.total).toBeLessThan(plan.cost.total);
  });
});

it('is legal after any lock added by hand in random shops, and moves less than a plan made anew', async () => {
  let [near, anew] = [0, 0];
  for (let seed = 1; seed <= 80; seed++) {
    const { shop, at } = seed % 2 === 0 ? randomShop(seed) : randomLockedShop(seed);
    const base = await planned(shop, at, 20, withoutBounds);
    const held = new Set(shop.floor.map(({ run }) => run));
    const free = base.runs.filter(({ run }) => !held.has(run));
    const pick = numbers(seed);
    const run = free[pick(free.length)]?.run;
    if (run === undefined) continue;
    const { machines } = runsOf(shop).find(({ id }) => id === run)!.operation;
    const start = Math.max(base.now, base.runs[pick(base.runs.length)]!.start);
    const locked = withLock(shop, base, run, machines[pick(machines.length)]!.machine, start);
    if (faultsOf(locked, at).some(({ level }) => level === 'error')) continue;
    for (const steps of [0, 30]) {
      const plan = await planned(locked, at, steps, { ...withoutBounds, near: base, released: base });
      const { breaches } = referee(locked, plan, base);
      if (breaches.length > 0) expect(breaches, `shop ${seed}`).toEqual([]);
      if (steps > 0) near += movedRuns(base, plan, run).length;
    }
    const again = await planned(locked, at, 30, { ...withoutBounds, previous: base, released: base });
    anew += movedRuns(base, again, run).length;
  }
  expect(near).toBeLessThan(anew / 2);
});
