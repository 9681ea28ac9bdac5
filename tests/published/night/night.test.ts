import { describe, expect, it } from 'vitest';
import { expectedInOrder, orderByOdds, simulateNights } from '../../../core/night';
import { Draws } from '../../../core/night/draws';
import { normalAt, normalBelow } from '../../../core/night/normal';
import { repeatsOf } from '../../../core/shop';
import { fourSigma, nightOf } from '../../core/night/night-shop';

const NIGHTS = 40_000;

describe('a check that sends the program back', () => {
  // Geometric distribution with a cap, any probability text: E = (1 - q^k) / p passes, q^k not accepted. Here k passes are
  // the first cut and k - 1 repeats.
  const cases = [
    { p: 0.8, k: 3, passes: 1.24, refused: 0.008 },
    { p: 0.6, k: 4, passes: 1.624, refused: 0.0256 },
    { p: 0.9, k: 2, passes: 1.1, refused: 0.01 },
    { p: 0.7, k: 5, passes: 1.4251, refused: 0.00243 },
    { p: 0.5, k: 3, passes: 1.75, refused: 0.125 },
  ];

  it.each(cases)('passing with $p at most $k times takes $passes passes on average', ({ p, k, passes, refused }) => {
    const check = { name: '', chance: 1 - p, repeat: 1, most: k - 1 };
    const { minutes, setAside } = repeatsOf([check]);
    const mean = minutes.reduce((sum, chance, repeats) => sum + chance * repeats, 0);
    expect(1 + mean).toBeCloseTo(passes, 6);
    expect(setAside).toBeCloseTo(refused, 9);
  });

  it.each(cases)('is played as often as it happens: p = $p, k = $k', ({ p, k, refused }) => {
    const operation = { checks: [{ chance: 1 - p, repeat: 10, most: k - 1 }] };
    const { shop, plan } = nightOf([{ minutes: 100, operation }], {
      night: { cycleSpread: 0, handling: 0, repeatShare: 0 },
    });
    const { runs } = simulateNights(shop, plan, { nights: NIGHTS, seed: 5 });
    expect(Math.abs(1 - runs[0]!.done - refused)).toBeLessThan(fourSigma(refused, NIGHTS));
  });
});

describe('good at every step', () => {
  // Public help page of a statistics package and a public calculator page (both read): rolled throughput yield.
  it.each([
    { steps: [0.95, 0.84, 0.88], all: 0.7 },
    { steps: [0.98, 0.97, 0.99, 0.96], all: 0.9035 },
    { steps: [0.71, 0.97, 0.99, 0.96], all: 0.6545 },
  ])('is the product of the steps: $all', ({ steps, all }) => {
    const checks = steps.map((good) => ({ name: '', chance: Math.sqrt(1 - good), repeat: 1, most: 1 }));
    // Out of limits twice in a row sets the pallet aside.
    expect(1 - repeatsOf(checks).setAside).toBeCloseTo(all, 2);
    const { shop, plan } = nightOf([{ minutes: 100, operation: { checks } }], {
      night: { cycleSpread: 0, handling: 0, repeatShare: 0 },
    });
    const { runs } = simulateNights(shop, plan, { nights: NIGHTS, seed: 9 });
    expect(Math.abs(runs[0]!.done - all)).toBeLessThan(0.003 + fourSigma(all, NIGHTS));
  });
});

describe('the order by odds', () => {
  // Sequencing unreliable jobs on parallel machines, J. Scheduling 12 (2009): p r / (1 - p) largest first.
  it('brings as much as the best of all orders of up to six runs', () => {
    const draws = new Draws(11);
    for (let one = 0; one < 200; one++) {
      draws.begin(one);
      const runs = Array.from({ length: 2 + (one % 5) }, (_, i) => ({
        hours: 0.5 + 8 * draws.next(i, 1),
        works: draws.next(i, 2) < 0.1 ? 1 : 0.4 + 0.6 * draws.next(i, 3),
        good: 0.7 + 0.3 * draws.next(i, 4),
      }));
      const best = Math.max(...permutations(runs).map(expectedInOrder));
      expect(expectedInOrder(orderByOdds(runs))).toBeCloseTo(best, 9);
    }
  });
});

describe('the life of a tool', () => {
  it('follows the normal table', () => {
    // Any statistics table.
    const table = [
      [1, 0.8413],
      [1.645, 0.95],
      [1.96, 0.975],
      [2.326, 0.99],
      [3, 0.99865],
    ] as const;
    for (const [z, below] of table) {
      expect(Math.abs(normalBelow(z) - below)).toBeLessThan(6e-5);
      expect(Math.abs(normalAt(below) - z)).toBeLessThan(2e-3);
    }
  });

  it.each([30, 50, 60, 75])(
    'of 60 min with a deviation of 18 ends a cut of %i min as often as the normal distribution says',
    (minutes) => {
      const tools = [{ id: 'T', life: 60, lifeSpread: 0.3 }];
      const machines = [
        { id: 'M1', kind: 'mill' as const, places: null, nightFraction: 1, magazine: [{ tool: 'T', left: [80] }] },
      ];
      const { shop, plan } = nightOf([{ minutes: 100, operation: { tools: [{ tool: 'T', minutes }] } }], {
        tools,
        machines,
      });
      const { runs } = simulateNights(shop, plan, { nights: NIGHTS, seed: 3 });
      const worn = normalBelow((minutes - 60) / 18);
      expect(Math.abs(runs[0]!.stops - worn)).toBeLessThan(fourSigma(worn, NIGHTS) + 1e-3);
    },
  );

  it('is the longer the longer it has lasted', () => {
    // Of tools that have lasted 60 min, half of all, those good for 18 more are Phi(-1) / 0.5 = 0.3173.
    const tools = [{ id: 'T', life: 60, lifeSpread: 0.3 }];
    const magazine = [{ tool: 'T', left: [0] }];
    const machines = [{ id: 'M1', kind: 'mill' as const, places: null, nightFraction: 1, magazine }];
    const { shop, plan } = nightOf([{ minutes: 100 }], { tools, machines });
    const used = {
      ...shop,
      jobs: [{ ...shop.jobs[0]!, route: [{ ...shop.jobs[0]!.route[0]!, tools: [{ tool: 'T', minutes: 18 }] }] }],
    };
    const { runs } = simulateNights(used, plan, { nights: NIGHTS, seed: 4 });
    expect(Math.abs(1 - runs[0]!.stops - 0.3173)).toBeLessThan(fourSigma(0.3173, NIGHTS) + 1e-3);
  });
});

describe('one operator for several machines', () => {
  // Peck & Hazelwood, Finite Queuing Tables (1958), extract on public pages: X = service / (service + run), M operators,
  // F the share of machines that run or are served. Exponential times, as M/M/c//N.
  const table = [
    { x: 0.05, n: 4, m: 1, f: 0.992 },
    { x: 0.05, n: 5, m: 1, f: 0.989 },
    { x: 0.05, n: 6, m: 1, f: 0.985 },
    { x: 0.05, n: 6, m: 2, f: 0.999 },
    { x: 0.05, n: 7, m: 1, f: 0.981 },
    { x: 0.05, n: 7, m: 2, f: 0.999 },
    { x: 0.1, n: 5, m: 1, f: 0.95 },
    { x: 0.1, n: 5, m: 2, f: 0.997 },
    { x: 0.2, n: 10, m: 1, f: 0.497 },
    { x: 0.2, n: 10, m: 2, f: 0.854 },
  ];

  it.each(table)('keeps $n machines as busy as the table says: X = $x, $m at work', ({ x, n, m, f }) => {
    const draws = new Draws(21);
    draws.begin(0);
    let count = 0;
    const exponential = (mean: number) => -mean * Math.log(draws.next(count++, 1));
    expect(Math.abs(playMachines(n, m, x, 60_000, exponential) - f)).toBeLessThan(0.01);
  });
});

/** Mean share of machines running or served, from so many calls of machines that run 1 - x and are served x on average. */
function playMachines(n: number, m: number, x: number, calls: number, exponential: (mean: number) => number): number {
  const due = Array.from({ length: n }, () => exponential(1 - x));
  const free = Array.from({ length: m }, () => 0);
  let waited = 0;
  let last = 0;
  for (let call = 0; call < calls; call++) {
    const machine = due.indexOf(Math.min(...due));
    const operator = free.indexOf(Math.min(...free));
    const begin = Math.max(due[machine]!, free[operator]!);
    waited += begin - due[machine]!;
    const served = begin + exponential(x);
    free[operator] = served;
    due[machine] = served + exponential(1 - x);
    last = served;
  }
  return 1 - waited / (n * last);
}

function permutations<T>(items: readonly T[]): T[][] {
  if (items.length < 2) return [[...items]];
  return items.flatMap((item, i) => permutations(items.toSpliced(i, 1)).map((rest) => [item, ...rest]));
}
