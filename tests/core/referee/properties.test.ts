import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { referee } from '../../../core/referee';
import { ATTENDANCE_ROLES, type Plan, type PlannedRun, planSchema } from '../../../core/shop';
import { brief, by, handless, jobOf, operation, planned, planOf, shopOf, t } from './fixture';

const SEED = 20261125;
const runs = (numRuns: number) => ({ seed: SEED, numRuns });

/** A morning of Ana's with everything in it: own places, a cell, a first piece, a table, a bench, a route, a night run. */
const shop = shopOf(
  [
    jobOf(
      'J1',
      [
        operation({ perPallet: 2, fixture: 'vise', machines: [{ machine: 'M1', cycle: 60 }] }),
        operation({ id: '20', perPallet: 4, machines: [{ machine: 'T1', cycle: 30 }], load: 5, unload: 5, lag: 15 }),
      ],
      { quantity: 4 },
    ),
    jobOf(
      'J2',
      [
        operation({
          fixture: 'vise',
          skill: 'measure',
          machines: ['C1', 'C2'].map((machine) => ({ machine, cycle: 120 })),
          firstPiece: { after: 30, minutes: 10 },
        }),
      ],
      { quantity: 2 },
    ),
    jobOf('J3', [operation({ machines: [{ machine: 'B1', cycle: 40 }], load: 5, unload: 5 })]),
    jobOf('J4', [operation({ machines: [{ machine: 'M1', cycle: 600 }], unload: 0 })]),
  ],
  {
    pallets: ['P1', 'P2', 'P3', 'P5'].map((id) => ({ id, fixture: 'vise' })).concat([{ id: 'Q1', fixture: 'magnet' }]),
  },
);
const good = planOf(shop, [
  planned('J1/10/1', 'M1', 490, 550, { pallet: 'P1', load: by('ana', 480), unload: by('ana', 560) }),
  planned('J1/10/2', 'M1', 550, 610, { pallet: 'P2', load: by('ana', 490), unload: by('ana', 620) }),
  planned('J2/10/1', 'C1', 512, 642, {
    pallet: 'P3',
    load: by('ana', 502),
    check: by('ana', 542),
    unload: by('ana', 650),
  }),
  planned('J2/10/2', 'C2', 552, 672, { pallet: 'P5', load: by('ana', 512), unload: by('ana', 680) }),
  planned('J1/20/1', 'T1', 697, 727, { load: by('ana', 692, 5), unload: by('ana', 727, 5) }),
  planned('J3/10/1', 'B1', 734, 784, { work: by('ana', 734, 50) }),
  planned('J4/10/1', 'M1', 796, 1396, { load: by('ana', 786) }),
]);

/** Refereed with its cost put right, so that only the change itself can be at fault. */
function codesOf(plan: Plan): string[] {
  return referee(shop, { ...plan, cost: referee(shop, plan).cost }).breaches.map(brief);
}

function changed(index: number, change: (run: PlannedRun) => PlannedRun): Plan {
  return { ...good, runs: good.runs.map((run, i) => (i === index ? change(run) : run)) };
}

const anyRun = fc.nat({ max: good.runs.length - 1 });
const shift = fc.integer({ min: -3000, max: 3000 }).filter((minutes) => minutes !== 0);
const anyAttendance = fc.constantFrom(
  ...good.runs.flatMap((run, index) =>
    ATTENDANCE_ROLES.filter((role) => run[role] !== null).map((role) => ({ index, role, given: run[role]! })),
  ),
);

describe('a good plan', () => {
  it('is legal as it stands', () => {
    expect(referee(shop, good).breaches).toEqual([]);
  });

  it('is not once the start or the end of any run alone is moved', () => {
    fc.assert(
      fc.property(anyRun, fc.constantFrom('start' as const, 'end' as const), shift, (index, edge, minutes) => {
        const codes = codesOf(changed(index, (run) => ({ ...run, [edge]: run[edge] + minutes })));
        expect(codes.some((code) => code.endsWith(good.runs[index]!.run))).toBe(true);
      }),
      runs(200),
    );
  });

  it('is not once any attendance is made longer or shorter', () => {
    fc.assert(
      fc.property(anyAttendance, shift, ({ index, role, given }, minutes) => {
        const plan = changed(index, (run) => ({ ...run, [role]: { ...given, end: given.end + minutes } }));
        expect(codesOf(plan)).not.toEqual([]);
      }),
      runs(200),
    );
  });

  it('is not once any attendance is moved to a time when its person is not there', () => {
    // Ana's days end at 16:00 and begin at 06:00; her break is at 10:00.
    const away = fc.oneof(
      fc.integer({ min: t('15:56'), max: t('05:59', 1) }),
      fc.integer({ min: t('09:56'), max: t('10:14') }),
    );
    fc.assert(
      fc.property(anyAttendance, away, ({ index, role, given }, start) => {
        const moved = { ...given, start, end: start + given.end - given.start };
        const codes = codesOf(changed(index, (run) => ({ ...run, [role]: moved })));
        expect(codes.some((code) => /^2 person-(hours|break)/.test(code))).toBe(true);
      }),
      runs(200),
    );
  });

  it('is not once any attendance is given to somebody else who is not there, cannot do it or is nobody', () => {
    fc.assert(
      fc.property(anyAttendance, fc.constantFrom('ben', 'eve'), ({ index, role, given }, person) => {
        const codes = codesOf(changed(index, (run) => ({ ...run, [role]: { ...given, person } })));
        expect(codes.some((code) => code.startsWith('2 '))).toBe(true);
      }),
      runs(50),
    );
  });

  it('is not once any pallet is swapped for one that is missing, unknown, of another fixture or on a machine already', () => {
    const onPallet = fc.constantFrom(...good.runs.flatMap((run, i) => (run.pallet === null ? [] : [i])));
    fc.assert(
      fc.property(onPallet, fc.constantFrom(null, 'P9', 'Q1', 'P1', 'P2', 'P3', 'P5'), (index, pallet) => {
        fc.pre(good.runs[index]?.pallet !== pallet);
        const codes = codesOf(changed(index, (run) => ({ ...run, pallet })));
        // All four vises are out from 08:32 to 09:30, so another run has whichever it is.
        expect(codes.some((code) => code.startsWith('5 '))).toBe(true);
      }),
      runs(50),
    );
  });

  it('is not once a run is dropped or planned twice', () => {
    fc.assert(
      fc.property(anyRun, (index) => {
        const run = good.runs[index]!;
        expect(codesOf({ ...good, runs: good.runs.filter((r) => r !== run) })).toContain(`0 missing-run ${run.run}`);
        expect(codesOf({ ...good, runs: [...good.runs, run] })).toContain(`0 repeated-run ${run.run}`);
      }),
      runs(20),
    );
  });

  it('is not once the shop needs a minute more for any step of it', () => {
    const longer = { ...shop, walking: { ...shop.walking, usual: 3 } };
    expect(referee(longer, good).breaches.some(({ code }) => code === 'walk')).toBe(true);
    fc.assert(
      fc.property(fc.nat({ max: shop.jobs.length - 1 }), fc.constantFrom('load', 'cycle'), (index, what) => {
        const jobs = shop.jobs.map((job, i) => {
          if (i !== index) return job;
          const route = job.route.map((op) => {
            if (what === 'load') return { ...op, load: op.load + 1 };
            return { ...op, machines: op.machines.map((m) => ({ ...m, cycle: m.cycle + 1 })) };
          });
          return { ...job, route };
        });
        expect(referee({ ...shop, jobs }, good).legal).toBe(false);
      }),
      runs(20),
    );
  });
});

describe('one sweep agrees with looking at every pair or minute', () => {
  const jobs = ['A', 'B', 'D', 'E'].map((id) => jobOf(id, [handless({ load: 0, unload: 10 })]));
  const four = shopOf(jobs, {
    horizonDays: 1,
    people: [{ id: 'ana', hours: [{ days: ['wed'], from: '00:00', to: '24:00' }] }],
  });
  const someRuns = fc.tuple(
    ...jobs.map(({ id }) =>
      fc
        .record({
          machine: fc.constantFrom('M1', 'M2'),
          start: fc.integer({ min: t('08:00'), max: t('11:00') }),
          wait: fc.nat({ max: 200 }),
        })
        .map(({ machine, start, wait }) =>
          planned(`${id}/10/1`, machine, start, start + 60, { unload: by('ana', start + 60 + wait) }),
        ),
    ),
  );
  const pairsOf = (plan: PlannedRun[]): [PlannedRun, PlannedRun][] =>
    plan.flatMap((a) => plan.filter((b) => b !== a).map((b): [PlannedRun, PlannedRun] => [a, b]));
  const has = (plan: PlannedRun[], ...codes: string[]) =>
    referee(four, planOf(four, plan)).breaches.some(({ code }) => codes.includes(code));

  it('on machines that are busy twice', () => {
    fc.assert(
      fc.property(someRuns, (plan) => {
        const twice = pairsOf(plan).some(([a, b]) => a.machine === b.machine && a.start <= b.start && b.start < a.end);
        expect(has(plan, 'machine-overlap')).toBe(twice);
      }),
      runs(200),
    );
  });

  it('on people who are asked for twice or cannot walk fast enough', () => {
    fc.assert(
      fc.property(someRuns, (plan) => {
        const twice = pairsOf(plan).some(([a, b]) => {
          const walk = a.machine === b.machine ? 0 : 5;
          return a.unload!.start <= b.unload!.start && b.unload!.start < a.unload!.end + walk;
        });
        expect(has(plan, 'person-overlap', 'walk')).toBe(twice);
      }),
      runs(200),
    );
  });

  it('on places that are full', () => {
    fc.assert(
      fc.property(someRuns, (plan) => {
        const over = plan.some((at) => {
          const there = plan.filter((r) => r.machine === at.machine && r.start <= at.start && at.start < r.unload!.end);
          return there.length > 2;
        });
        expect(has(plan, 'places')).toBe(over);
      }),
      runs(200),
    );
  });
});

describe('any plan its schema takes, however wrong', () => {
  const floor = ['running', 'finished', 'loaded', 'locked', 'done'] as const;
  const shops = [
    shop,
    ...floor.map((state) => ({
      ...shop,
      floor: good.runs.slice(0, 6).map(({ run, machine }, i) => {
        const start = i % 2 === 0 ? '2026-11-25T07:00' : null;
        return {
          run,
          state,
          machine: i % 3 === 0 ? null : machine,
          pallet: i % 2 === 0 ? 'P1' : null,
          start,
          end: null,
          after: i % 2 === 0 ? 'J1/10/1' : null,
        };
      }),
    })),
  ];
  const minute = fc.oneof(fc.integer({ min: -2000, max: 6000 }), fc.maxSafeInteger());
  const person = fc.constantFrom('ana', 'ben', 'eve', '');
  const attendance = fc.option(fc.record({ person, start: minute, end: minute }));
  const run = fc.constantFrom(...good.runs.map((r) => r.run), 'J9/10/1', '', '__proto__');
  const machine = fc.constantFrom('M1', 'M2', 'C1', 'C2', 'T1', 'B1', 'X', '');
  const number = fc.double({ noNaN: true, noDefaultInfinity: true });
  const parts = [
    'lateness',
    'loaded',
    'tonight',
    'laterNights',
    'morning',
    'rounds',
    'extraHours',
    'moved',
    'flow',
    'finish',
    'total',
  ];
  const plan = fc.record({
    format: fc.constant('nightload-plan' as const),
    version: fc.constant(1 as const),
    shop: fc.string(),
    clock: fc.record({
      zone: fc.constantFrom('Europe/Berlin', 'Nowhere/At_All', ''),
      origin: fc.oneof(fc.constant(good.clock.origin), fc.maxSafeInteger()),
    }),
    now: minute,
    horizon: minute,
    runs: fc.array(
      fc.record({
        run,
        machine,
        pallet: fc.constantFrom(null, 'P1', 'P2', 'Q1', 'P9'),
        load: attendance,
        start: minute,
        end: minute,
        check: attendance,
        work: attendance,
        unload: attendance,
      }),
      { maxLength: 10 },
    ),
    care: fc.array(
      fc.record({
        machine,
        person: fc.constantFrom('ana', 'ben', 'nobody', ''),
        start: minute,
        end: minute,
        acts: fc.array(
          fc.record({
            tool: fc.constantFrom('T', 'X', ''),
            sister: fc.nat(3),
            act: fc.constantFrom('replace' as const, 'dress' as const),
          }),
          { minLength: 1, maxLength: 3 },
        ),
      }),
      { maxLength: 3 },
    ),
    left: fc.array(fc.record({ run, why: fc.string() }), { maxLength: 3 }),
    conflicts: fc.array(fc.record({ run, say: fc.string() }), { maxLength: 3 }),
    cost: fc.record(Object.fromEntries(parts.map((part) => [part, number]))) as fc.Arbitrary<Plan['cost']>,
    bound: fc.constant(null),
    search: fc.constant(good.search),
  });

  it('gets a verdict in whole sentences', () => {
    fc.assert(
      fc.property(fc.constantFrom(...shops), plan, plan, (where, candidate, released) => {
        expect(planSchema.safeParse(candidate).success).toBe(true);
        const verdict = referee(where, candidate, released);
        expect(verdict.legal).toBe(verdict.breaches.length === 0);
        for (const { rule, say } of [...verdict.breaches, ...verdict.conflicts]) {
          expect([0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10]).toContain(rule);
          expect(say).toMatch(/^.+[.]$/);
          expect(say).not.toMatch(/NaN|undefined|null|\[object/);
        }
      }),
      runs(500),
    );
  });
});
