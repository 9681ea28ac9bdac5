import { describe, expect, it } from 'vitest';
import { bestSwap, compareNights, NightStudy, simulateNights } from '../../../core/night';
import { at, fourSigma, nightOf } from './night-shop';

const NIGHTS = 20_000;
const options = { nights: NIGHTS, seed: 7 };
const odds = (block: number, loss: number) => ({ odds: { block, loss } });

describe('simulated nights', () => {
  it('cut all that is loaded where nothing can go wrong', () => {
    const { shop, plan } = nightOf([{ minutes: 120 }, { minutes: 180 }, { machine: 'M2', minutes: 60 }]);
    const outcome = simulateNights(shop, plan, { nights: 50, seed: 1 });
    expect(outcome).toMatchObject({ loaded: 6, expected: 6, badNight: 6, halfWidth: 0, stops: [], wrong: [] });
    expect(outcome.machines.map(({ quietPlanned }) => quietPlanned)).toEqual([at('03:00', 1), at('23:00')]);
  });

  it('come out the same again from the same seed, and otherwise from another', () => {
    const { shop, plan } = nightOf([{ minutes: 120, operation: odds(0.2, 0.1) }]);
    const [first, again, other] = [1, 1, 2].map((seed) => simulateNights(shop, plan, { nights: 200, seed }));
    expect(again).toEqual(first);
    expect(other!.expected).not.toBe(first!.expected);
  });

  it('can be played in slices', () => {
    const { shop, plan } = nightOf([{ minutes: 120, operation: odds(0.2, 0.1) }]);
    const study = new NightStudy(shop, plan, { nights: 500, seed: 3 });
    while (study.left > 0) study.play(77);
    expect(study.outcome()).toEqual(simulateNights(shop, plan, { nights: 500, seed: 3 }));
  });

  it('expect what the referee counts by the odds', () => {
    const runs = [
      { minutes: 60, operation: odds(0.1, 0.05) },
      { minutes: 150, operation: odds(0.25, 0) },
      { minutes: 90, operation: odds(0.02, 0.2) },
      { machine: 'M2', minutes: 200, operation: odds(0.3, 0.1) },
    ];
    const { shop, plan } = nightOf(runs);
    const { expected, halfWidth } = simulateNights(shop, plan, options);
    expect(plan.cost.tonight).toBeLessThan(plan.cost.loaded - 1);
    // Twice the half width of 95 % is four standard deviations.
    expect(Math.abs(expected - plan.cost.tonight)).toBeLessThan(2 * halfWidth);
  });

  it('stop all machines of a shared cause at once', () => {
    const shared = [{ name: 'Coolant', chance: 0.3 }];
    const runs = [{ minutes: 480 }, { machine: 'M2', minutes: 480 }];
    const { shop, plan } = nightOf(runs, { night: { cycleSpread: 0, handling: 0, shared } });
    const { stops, machines } = simulateNights(shop, plan, options);
    expect(stops).toEqual([
      { kind: 'shared', machine: null, run: null, name: 'Coolant', chance: 0.3, lost: stops[0]!.lost },
    ]);
    for (const { stillCutting } of machines) expect(Math.abs(stillCutting - 0.7)).toBeLessThan(fourSigma(0.7, NIGHTS));
    // Both stop in the same nights, at the same moment.
    expect(machines[0]!.stillCutting).toBe(machines[1]!.stillCutting);
  });

  it('lose a pallet change with its chance, and none at a table', () => {
    const night = { cycleSpread: 0, handling: 0.2 };
    const changer = nightOf([{ minutes: 240 }, { minutes: 240 }], { night });
    const outcome = simulateNights(changer.shop, changer.plan, options);
    expect(Math.abs(outcome.runs[1]!.done - 0.64)).toBeLessThan(fourSigma(0.64, NIGHTS));
    const table = { ...changer.shop, machines: changer.shop.machines.map((m) => ({ ...m, places: 0 })) };
    expect(simulateNights(table, changer.plan, options).expected).toBe(8);
  });

  it('find a worn finish tool only where the operation has a check', () => {
    const tools = [{ id: 'T', life: 100, lifeSpread: 0.3, finish: true }];
    const magazine = [{ tool: 'T', left: [100, 100] }];
    const machines = [{ id: 'M1', kind: 'mill' as const, places: null, nightFraction: 1, magazine }];
    const use = { tools: [{ tool: 'T', minutes: 90 }] };
    const blind = nightOf([{ minutes: 120, operation: use }], { tools, machines });
    const seen = nightOf([{ minutes: 120, operation: { ...use, checks: [{ chance: 0, repeat: 0 }] } }], {
      tools,
      machines,
    });
    const wrong = simulateNights(blind.shop, blind.plan, options).wrong;
    // A life of 100 with a deviation of 30 ends before 90 with chance Phi(-1/3) = 0.3694.
    expect(Math.abs(wrong[0]!.mean - 0.3694)).toBeLessThan(fourSigma(0.3694, NIGHTS));
    expect(simulateNights(seen.shop, seen.plan, options).wrong).toEqual([]);
  });

  it('have nothing to say where somebody is always there', () => {
    const { shop, plan } = nightOf([{ minutes: 60 }]);
    const always = {
      ...shop,
      people: [
        {
          ...shop.people[0]!,
          hours: [
            {
              ...shop.people[0]!.hours[0]!,
              days: [
                'mon' as const,
                'tue' as const,
                'wed' as const,
                'thu' as const,
                'fri' as const,
                'sat' as const,
                'sun' as const,
              ],
              from: '00:00',
              to: '24:00',
            },
          ],
        },
      ],
    };
    expect(simulateNights(always, plan, { nights: 10, seed: 1 })).toMatchObject({
      stretch: null,
      loaded: 0,
      expected: 0,
    });
  });
});

describe('two plans compared', () => {
  const runs = [
    { minutes: 60, operation: odds(0.4, 0) },
    { minutes: 240, operation: odds(0.01, 0) },
  ];

  it('differ by nothing if they are the same', () => {
    const night = nightOf(runs);
    expect(compareNights(night, night, { nights: 100, seed: 1 })).toEqual({ gain: 0, halfWidth: 0 });
  });

  it('are told apart by fewer nights than it takes to know either', () => {
    const night = nightOf(runs);
    const swap = bestSwap(night.shop, night.plan, { nights: 2_000, seed: 1 })!;
    const alone = simulateNights(night.shop, night.plan, { nights: 2_000, seed: 1 });
    expect(swap).toMatchObject({ machine: 'M1', first: 'J1/10/1', second: 'J2/10/1' });
    // Risky first 0.6·1 + 0.6·0.99·4 = 2.976; safe first 0.99·4 + 0.99·0.6·1 = 4.554.
    expect(Math.abs(swap.gain - 1.578)).toBeLessThan(2 * swap.halfWidth);
    expect(simulateNights(night.shop, swap.plan, { nights: 2_000, seed: 1 }).expected).toBeCloseTo(
      alone.expected + swap.gain,
      9,
    );
  });

  it('leave an order alone that no exchange betters', () => {
    const night = nightOf(runs.toReversed());
    expect(bestSwap(night.shop, night.plan, { nights: 2_000, seed: 1 })).toBeNull();
  });
});
