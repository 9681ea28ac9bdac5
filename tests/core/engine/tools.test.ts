import { describe, expect, it } from 'vitest';
import { referee } from '../../../core/referee';
import { type Plan, type Shop, type ShopInput, shopSchema } from '../../../core/shop';
import { planned } from './planned';

type Tool = NonNullable<ShopInput['tools']>[number];
type Operation = NonNullable<ShopInput['jobs']>[number]['route'][number];

const MONDAY = '2026-11-02';
const NOW = `${MONDAY}T14:00`;

/** Own shop: one mill with six places, a person from 14:00 to 22:00 and one from 06:00 to 14:00, six pallets. */
function shopWith(
  tool: Partial<Tool>,
  left: number[],
  operation: Partial<Operation> = {},
  more: Partial<ShopInput> = {},
  runs = 4,
): Shop {
  const days = ['mon', 'tue', 'wed', 'thu', 'fri'] as const;
  return shopSchema.parse({
    format: 'nightload-shop',
    version: 1,
    name: 'Tools',
    zone: 'UTC',
    horizonDays: 5,
    planFrom: NOW,
    people: [
      { id: 'Day', hours: [{ days: [...days], from: '06:00', to: '14:00' }] },
      { id: 'Evening', hours: [{ days: [...days], from: '14:00', to: '22:00' }] },
    ],
    machines: [
      { id: 'M', kind: 'mill', places: 6, nightFraction: 1, magazine: left.length > 0 ? [{ tool: 'T', left }] : [] },
    ],
    pallets: Array.from({ length: 6 }, (_, i) => ({ id: `P${i + 1}`, fixture: 'F' })),
    tools: [{ id: 'T', life: 200, replaceMinutes: 10, ...tool }],
    jobs: [
      {
        id: 'J',
        quantity: runs,
        due: `${MONDAY}T23:00`,
        route: [
          {
            ...{ id: '10', machines: [{ machine: 'M', cycle: 120 }], fixture: 'F', load: 5, unload: 5 },
            ...{ tools: [{ tool: 'T', minutes: 100 }] },
            ...operation,
          },
        ],
      },
    ],
    ...more,
  } satisfies ShopInput);
}

async function planOf(shop: Shop, steps = 400): Promise<Plan> {
  const plan = await planned(shop, NOW, steps);
  expect(referee(shop, plan).breaches).toEqual([]);
  return plan;
}

const acts = (plan: Plan) => plan.care.flatMap((care) => care.acts.map(({ act }) => act));
const at = (clock: string) => 60 * Number(clock.slice(0, 2)) + Number(clock.slice(3));

describe('tools that wear', () => {
  it('are left alone while they last', async () => {
    expect((await planOf(shopWith({}, [200, 200]))).care).toEqual([]);
  });

  it('are replaced once when one run more than they last for is due', async () => {
    // Nothing to gain by waiting for the night.
    const plan = await planOf(shopWith({}, [150, 150], {}, { weights: { tonight: 0, morning: 0 } }));
    expect(plan.left).toEqual([]);
    expect(acts(plan)).toEqual(['replace']);
  });

  it('are replaced before the people leave, so that the night goes on', async () => {
    // Eight runs of two hours from 14:00 on: the last four in the night, which begins at 22:00.
    const plan = await planOf(shopWith({ life: 400 }, [400], {}, {}, 8));
    expect(plan.care.length).toBeGreaterThan(0);
    expect(plan.care[0]!.end).toBeLessThanOrEqual(at('22:00'));
    const inTheNight = plan.runs.filter((run) => run.end > at('22:00') && run.start < 1440 + at('06:00'));
    expect(inTheNight.length).toBeGreaterThanOrEqual(4);
  });

  it('that finish a face are not taken from two halves', async () => {
    const cutter = await planOf(shopWith({}, [60, 60], {}, {}, 1));
    const finisher = await planOf(shopWith({ finish: true }, [60, 60], {}, {}, 1));
    expect([acts(cutter), acts(finisher)]).toEqual([[], ['replace']]);
  });

  it('are put into an empty magazine first', async () => {
    const plan = await planOf(shopWith({}, [], {}, {}, 1));
    expect(plan.care[0]).toMatchObject({ machine: 'M', acts: [{ tool: 'T', sister: 0, act: 'replace' }] });
    expect(plan.care[0]!.end).toBeLessThanOrEqual(plan.runs[0]!.start);
  });

  it('keep what the night must leave in them', async () => {
    const shop = shopWith({}, [200]);
    shop.machines[0]!.nightFraction = 0.5;
    // Of a fresh tool's 200 minutes the night may use 100: one run, wherever it is.
    const plan = await planOf(shop);
    const inTheNight = plan.runs.filter((run) => run.end > at('22:00') && run.start < 1440 + at('06:00'));
    expect(inTheNight.length).toBeLessThanOrEqual(1);
    expect(plan.left).toEqual([]);
  });

  it('make no plan dearer by being listed and used by nothing', async () => {
    const bare = await planOf(shopWith({}, [200, 200], { tools: [] }));
    expect((await planOf(shopWith({}, [200, 200]))).cost).toEqual(bare.cost);
  });
});

describe('a wheel dressed by hand', () => {
  const wheel: Partial<Tool> = { kind: 'wheel', life: 2000, dressing: { every: 250, minutes: 15, by: 'hand' } };

  it('is dressed before it has ground for longer than its interval', async () => {
    const plan = await planOf(shopWith(wheel, [2000]));
    expect(acts(plan)).toEqual(['dress']);
    expect(plan.care[0]!.end - plan.care[0]!.start).toBe(15);
  });

  it('needs nobody where the machine dresses it', async () => {
    const byMachine = { ...wheel, dressing: { every: 250, minutes: 15, by: 'machine' as const } };
    expect((await planOf(shopWith(byMachine, [2000]))).care).toEqual([]);
  });
});

describe('work that has not earned to run alone', () => {
  const alone = (plan: Plan) =>
    plan.runs.map((run) => Math.min(run.end, 1440 + at('06:00')) - Math.max(run.start, at('22:00')));

  it('is cut with somebody in the shop only', async () => {
    const proof = { goodRuns: 2, longestAlone: 0 };
    const plan = await planOf(shopWith({}, [200, 200], { tools: [], proof }, {}, 8));
    expect(plan.left).toEqual([]);
    for (const minutes of alone(plan)) expect(minutes).toBeLessThanOrEqual(0);
  });

  it('goes into the night for as long as it has earned', async () => {
    const machines = [{ machine: 'M', cycle: 300 }];
    const proof = { goodRuns: 5, longestAlone: 70 };
    const plan = await planOf(shopWith({}, [200], { tools: [], machines, proof }, {}, 6));
    expect(plan.left).toEqual([]);
    for (const minutes of alone(plan)) expect(minutes).toBeLessThanOrEqual(140);
  });

  it('is held back by the parts nobody would have looked at', async () => {
    const shop = shopWith({}, [200], { tools: [] }, {}, 8);
    shop.jobs[0]!.suspectLimit = 2;
    const plan = await planOf(shop);
    expect(plan.left).toEqual([]);
    expect(alone(plan).filter((minutes) => minutes > 0).length).toBeLessThanOrEqual(2);
  });
});

describe('the order of a night', () => {
  it('puts first what brings most good hours for its odds to block the machine', async () => {
    const shop = shopWith({}, [], { tools: [] }, {}, 1);
    const [safe] = shop.jobs;
    const job = (id: string, block: number, cycle: number) => ({
      ...safe!,
      id,
      due: '2026-11-06T12:00',
      route: [{ ...safe!.route[0]!, machines: [{ machine: 'M', cycle }], odds: { block, loss: 0 } }],
    });
    // p·h/(1-p): 0.8·3/0.2 = 12, 0.98·2/0.02 = 98, 0.95·3/0.05 = 57: J. Scheduling 12 (2009).
    shop.jobs = [job('risky', 0.2, 180), job('safe', 0.02, 120), job('fair', 0.05, 180)];
    // Ten hours with nobody there, three loads just before them.
    shop.people[0]!.hours = [{ ...shop.people[0]!.hours[0]!, from: '08:00' }];
    for (const each of shop.jobs) each.release = `${MONDAY}T21:44`;
    const plan = await planOf(shop, 2000);
    expect(plan.runs.map((run) => run.run.split('/')[0])).toEqual(['safe', 'fair', 'risky']);
  });
});
