import { describe, expect, it } from 'vitest';
import { machineShopOf } from '../../../core/engine/disjunctive';
import { problemOf } from '../../../core/problem';
import { referee } from '../../../core/referee';
import { demoShop, type Plan, type Shop, type ShopInput, shopSchema } from '../../../core/shop';
import { planned } from './planned';
import { randomLockedShop } from './random-shop';

const AT = '2026-11-30T13:00';

type FloorInput = NonNullable<ShopInput['floor']>[number];

/** Two mills with two places each, somebody there from 06:00 to 22:00, jobs A to D of one run of two hours. */
function fourJobs(floor: FloorInput[], more: Partial<ShopInput> = {}): Shop {
  return shopSchema.parse({
    format: 'nightload-shop',
    version: 1,
    name: 'Four jobs',
    zone: 'Europe/Berlin',
    horizonDays: 4,
    planFrom: AT,
    people: [{ id: 'Ada', hours: [{ days: ['mon', 'tue', 'wed', 'thu', 'fri'], from: '06:00', to: '22:00' }] }],
    machines: ['M1', 'M2'].map((id) => ({ id, kind: 'mill' as const, places: 2 })),
    pallets: ['P1', 'P2', 'P3', 'P4'].map((id) => ({ id, fixture: 'vice' })),
    jobs: ['A', 'B', 'C', 'D'].map((id) => ({
      id,
      due: '2026-12-03T12:00',
      route: [
        {
          id: '10',
          machines: ['M1', 'M2'].map((machine) => ({ machine, cycle: 120 })),
          fixture: 'vice',
          load: 10,
          unload: 10,
        },
      ],
    })),
    floor,
    ...more,
  } satisfies ShopInput);
}

const behind = (run: string, after: string, more: Partial<FloorInput> = {}): FloorInput => ({
  run: `${run}/10/1`,
  state: 'locked',
  after: `${after}/10/1`,
  ...more,
});

async function legalPlan(shop: Shop, steps = 60): Promise<Plan> {
  const plan = await planned(shop, AT, steps);
  expect(referee(shop, plan).breaches).toEqual([]);
  return plan;
}

function runOf(plan: Plan, job: string) {
  const found = plan.runs.find(({ run }) => run === `${job}/10/1`);
  if (found === undefined) throw new Error(`${job} is not in the plan`);
  return found;
}

describe('a run locked behind another', () => {
  it('is cut after it on the same machine, although the other machine is free', async () => {
    const plan = await legalPlan(fourJobs([behind('A', 'B')]));
    expect(runOf(plan, 'A').machine).toBe(runOf(plan, 'B').machine);
    expect(runOf(plan, 'A').start).toBeGreaterThanOrEqual(runOf(plan, 'B').end);
    expect(plan.conflicts).toEqual([]);
  });

  it('brings its machine along: a chain is cut where one of it is locked to', async () => {
    const plan = await legalPlan(fourJobs([behind('A', 'B'), behind('B', 'C'), behind('C', 'D', { machine: 'M2' })]));
    const chain = ['D', 'C', 'B', 'A'].map((job) => runOf(plan, job));
    expect(chain.map(({ machine }) => machine)).toEqual(['M2', 'M2', 'M2', 'M2']);
    for (const [i, run] of chain.slice(1).entries()) expect(run.start).toBeGreaterThanOrEqual(chain[i]!.end);
  });

  it('follows one that is cutting now', async () => {
    const running: FloorInput = {
      run: 'B/10/1',
      state: 'running',
      machine: 'M2',
      pallet: 'P1',
      start: '2026-11-30T12:10',
    };
    const plan = await legalPlan(fourJobs([running, behind('A', 'B')]));
    expect(runOf(plan, 'A').machine).toBe('M2');
    expect(runOf(plan, 'A').start).toBeGreaterThanOrEqual(runOf(plan, 'B').end);
  });

  it('lets that one go first where it is locked to a start as well', async () => {
    const plan = await legalPlan(fourJobs([behind('A', 'D', { start: '2026-11-30T15:30' })]));
    expect(runOf(plan, 'A').start).toBe(15 * 60 + 30);
    expect(runOf(plan, 'D').machine).toBe(runOf(plan, 'A').machine);
    expect(runOf(plan, 'D').end).toBeLessThanOrEqual(15 * 60 + 30);
    expect(plan.conflicts).toEqual([]);
  });

  it('stays at its locked start where that one cannot be through by then, and says so', async () => {
    const plan = await legalPlan(fourJobs([behind('A', 'B', { start: '2026-11-30T14:00' })]));
    expect(runOf(plan, 'A').start).toBe(14 * 60);
    expect(plan.conflicts).toHaveLength(1);
    expect(plan.conflicts[0]?.say).toMatch(
      /^A\/10\/1 is locked behind B\/10\/1, whose cut ends Mon 30 Nov \d\d:\d\d, and to start Mon 30 Nov 14:00; lock it to a later start/,
    );
  });

  it('is planned all the same where the two have no machine in common, and says so', async () => {
    const floor = [behind('A', 'B', { machine: 'M1' }), { run: 'B/10/1', state: 'locked' as const, machine: 'M2' }];
    const plan = await legalPlan(fourJobs(floor));
    expect(runOf(plan, 'A').machine).toBe('M1');
    expect(plan.conflicts[0]).toMatchObject({
      run: 'A/10/1',
      say: expect.stringContaining('no machine suits both and all that is locked to them; it can go on M1'),
    });
    expect(plan.bound).toBeNull();
  });

  it('is left out with it, and says why', async () => {
    const shop = fourJobs([behind('A', 'B')]);
    const long = { ...shop.jobs[1]!.route[0]!, machines: [{ machine: 'M1', cycle: 6 * 1440 }] };
    const jobs = shop.jobs.map((job) => (job.id === 'B' ? { ...job, route: [long] } : job));
    const plan = await legalPlan({ ...shop, jobs });
    expect(plan.left).toContainEqual({ run: 'A/10/1', why: 'B/10/1, which it is locked behind, is left out' });
  });

  it('takes a shop of machines alone out of the search that does not know of it', () => {
    const machinesOnly = fourJobs([], {
      machines: ['M1', 'M2'].map((id) => ({ id, kind: 'mill' as const, places: null })),
      weights: {
        lateness: 0,
        tonight: 0,
        laterNights: 0,
        morning: 0,
        rounds: 0,
        extraHours: 0,
        moved: 0,
        flow: 0,
        finish: 1,
      },
    });
    const bare = machinesOnly.jobs.map((job) => ({
      ...job,
      route: job.route.map((operation) => ({ ...operation, fixture: null, load: 0, unload: 0 })),
    }));
    const shop = { ...machinesOnly, jobs: bare };
    expect(machineShopOf(problemOf(shop, AT))).not.toBeNull();
    const locked = { ...shop, floor: fourJobs([behind('A', 'B')]).floor };
    expect(machineShopOf(problemOf(locked, AT))).toBeNull();
  });

  it('follows it through the demo week, and no lock is in conflict', async () => {
    const demo = demoShop('2026-11-25');
    const plan = await planned(demo, demo.planFrom!, 0, { allocate: false });
    const held = new Set(demo.floor.map(({ run }) => run));
    const [a, b, c] = plan.runs.filter((one) => !held.has(one.run) && one.machine === 'M1').map(({ run }) => run);
    const floor = shopSchema.shape.floor.parse([
      ...demo.floor,
      { run: a, state: 'locked', after: b },
      { run: b, state: 'locked', after: c },
    ]);
    const shop = { ...demo, floor };
    const locked = await planned(shop, demo.planFrom!, 300, { allocate: false });
    expect(referee(shop, locked).breaches).toEqual([]);
    expect(locked.conflicts).toEqual([]);
    const found = [c, b, a].map((run) => locked.runs.find((one) => one.run === run)!);
    expect(new Set(found.map(({ machine }) => machine)).size).toBe(1);
    expect(found.map(({ start }) => start)).toEqual(found.map(({ start }) => start).toSorted((x, y) => x - y));
  });
});

describe('a withdrawn pallet', () => {
  it('gets no new load, and lets what runs on it come off', async () => {
    const shop = fourJobs([
      { run: 'A/10/1', state: 'running', machine: 'M1', pallet: 'P1', start: '2026-11-30T12:10' },
    ]);
    const pallets = shop.pallets.map((pallet) => ({ ...pallet, inUse: !['P1', 'P2'].includes(pallet.id) }));
    const plan = await legalPlan({ ...shop, pallets });
    expect(runOf(plan, 'A').pallet).toBe('P1');
    expect(['B', 'C', 'D'].map((job) => runOf(plan, job).pallet)).not.toContain('P1');
    expect(['B', 'C', 'D'].map((job) => runOf(plan, job).pallet)).not.toContain('P2');
    expect(plan.conflicts).toEqual([]);
  });

  it('keeps a run that is locked to it, and says what to do', async () => {
    const shop = fourJobs([{ run: 'A/10/1', state: 'locked', pallet: 'P2' }]);
    const pallets = shop.pallets.map((pallet) => ({ ...pallet, inUse: pallet.id !== 'P2' }));
    const plan = await legalPlan({ ...shop, pallets });
    expect(runOf(plan, 'A').pallet).toBe('P2');
    expect(plan.conflicts).toEqual([
      {
        run: 'A/10/1',
        say: 'A/10/1 is locked to pallet P2, which is withdrawn; set P2 in use, or lock the run to another pallet',
      },
    ]);
  });
});

describe('locks of every kind', () => {
  const to = { machine: 'M2', pallet: 'P3', start: '2026-12-01T10:05' };
  it.each<[string, Partial<FloorInput>]>([
    ['a machine', { machine: to.machine }],
    ['a pallet', { pallet: to.pallet }],
    ['a start', { start: to.start }],
    ['machine and pallet', { machine: to.machine, pallet: to.pallet }],
    ['machine and start', { machine: to.machine, start: to.start }],
    ['pallet and start', { pallet: to.pallet, start: to.start }],
    ['all three', to],
    ['all three and an order', { ...to, after: 'C/10/1' }],
  ])('hold: to %s', async (_, lock) => {
    const plan = await legalPlan(fourJobs([{ run: 'A/10/1', state: 'locked', ...lock }]));
    const { start, machine, pallet } = runOf(plan, 'A');
    if (lock.machine !== undefined) expect(machine).toBe(lock.machine);
    if (lock.pallet !== undefined) expect(pallet).toBe(lock.pallet);
    if (lock.start !== undefined) expect(start).toBe(34 * 60 + 5);
    if (lock.after !== undefined) expect(runOf(plan, 'C').end).toBeLessThanOrEqual(start);
    expect(plan.conflicts).toEqual([]);
  });

  it('that cannot hold say what is in the way and until when', async () => {
    const first: FloorInput = { run: 'B/10/1', state: 'locked', machine: 'M1', start: '2026-12-01T09:00' };
    const second = await legalPlan(fourJobs([first, { ...first, run: 'A/10/1', start: '2026-12-01T10:00' }]));
    expect(second.conflicts.map(({ say }) => say)).toEqual([
      'A/10/1 is locked to start Tue 1 Dec 10:00 and cannot: M1 is not free then, B/10/1 has it until Tue 1 Dec 11:00; lock it to another time or machine, or take the lock off',
    ]);
    const past = await legalPlan(fourJobs([{ ...first, start: '2026-11-30T12:00' }]));
    expect(past.conflicts[0]?.say).toContain('start Mon 30 Nov 12:00, which is past; lock it to a later start');
    const noPallet = await legalPlan(
      fourJobs([
        { ...first, pallet: 'P1' },
        { ...first, run: 'A/10/1', machine: 'M2', pallet: 'P1', start: '2026-12-01T10:00' },
      ]),
    );
    expect(noPallet.conflicts[0]?.say).toContain('B/10/1 has P1 until Tue 1 Dec 11:10');
  });

  it('pass the referee with every plan of 300 random shops, changed a few times each', async () => {
    let held = 0;
    for (let seed = 1; seed <= 300; seed++) {
      const { shop, at } = randomLockedShop(seed);
      const plan = await planned(shop, at, 20, { seed, allocate: false, clock: () => 0 });
      const { breaches } = referee(shop, plan);
      if (breaches.length > 0) expect(breaches, `shop ${seed}`).toEqual([]);
      const conflicting = new Set(plan.conflicts.map(({ run }) => run));
      const inPlan = new Set(plan.runs.map(({ run }) => run));
      held += shop.floor.filter(({ run, after }) => after !== null && inPlan.has(run) && !conflicting.has(run)).length;
    }
    expect(held).toBeGreaterThan(150);
  });
});
