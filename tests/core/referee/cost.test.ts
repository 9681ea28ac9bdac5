import { describe, expect, it } from 'vitest';
import { referee } from '../../../core/referee';
import type { Plan } from '../../../core/shop';
import { clockOn } from '../../../core/time';
import { by, handless, jobOf, operation, planned, planOf, shopOf, t } from './fixture';

/** Own fixture: every part of the cost follows from the comments beside the runs. */
const shop = shopOf([
  jobOf('A', [operation({ machines: [{ machine: 'M1', cycle: 600 }] })], { due: '2026-11-26T04:10', weight: 3 }),
  jobOf('B', [handless({ machines: [{ machine: 'M2', cycle: 599 }] })]),
  jobOf(
    'C',
    [
      handless({
        machines: [
          { machine: 'M1', cycle: 90 },
          { machine: 'M2', cycle: 60 },
        ],
      }),
    ],
    { quantity: 2, due: '2026-11-28T00:00' },
  ),
  jobOf('D', [handless({ machines: [{ machine: 'C1', cycle: 600 }] })]),
  jobOf('E', [operation()]),
]);
const runs = [
  // Tonight is Wednesday 22:00 to Thursday 06:00: cut 8 h, and through its last minute. Off at 06:10, two hours late.
  planned('A/10/1', 'M1', t('20:00'), t('06:00', 1), { load: by('ana', t('08:00')), unload: by('ana', t('06:00', 1)) }),
  // 7 h 59 min tonight, and not through its last minute.
  planned('B/10/1', 'M2', t('20:00'), t('05:59', 1)),
  // Thursday 22:00 to Friday 06:00: 8 h in a later night.
  planned('D/10/1', 'C1', t('20:00', 1), t('06:00', 2)),
  // Loaded at M2 15 minutes after Ana left M1, of which 5 are the walk: one round. Taken off in extra hours, 10 minutes.
  planned('E/10/1', 'M2', t('08:35'), t('09:35'), { load: by('ana', t('08:25')), unload: by('ana', t('14:30')) }),
];
// Horizon at Saturday 00:00 and the shorter cut of both: two hours after its due time, 66 h after now.
const left = ['C/10/1', 'C/10/2'].map((run) => ({ run, why: 'no room' }));
const cost = (more: Partial<Plan> = {}, released?: Plan) => {
  const plan = planOf(shop, runs, { left, ...more });
  return referee(shop, plan, released).cost;
};
const replaced = (run: string, more: object) => runs.map((r) => (r.run === run ? { ...r, ...more } : r));

describe('cost, worked out by hand', () => {
  it('of a legal plan', () => {
    expect(referee(shop, planOf(shop, runs, { left })).breaches).toEqual([]);
  });

  it('lateness: weighted hours after the due time, runs left out counted from the horizon', () => {
    expect(cost().lateness).toBeCloseTo(3 * 2 + 2, 9);
  });

  it('tonight: machine hours cut while nobody is there', () => {
    expect(cost().tonight).toBeCloseTo(8 + 479 / 60, 9);
  });

  it('laterNights: the same after tonight', () => {
    expect(cost().laterNights).toBeCloseTo(8, 9);
  });

  it('morning: machines that cut through the last minute of the night', () => {
    expect(cost().morning).toBe(1);
    const slower = shopOf([jobOf('B', [handless({ machines: [{ machine: 'M2', cycle: 600 }] })])]);
    const through = planOf(slower, [planned('B/10/1', 'M2', t('20:00'), t('06:00', 1))]);
    expect(referee(slower, through).cost.morning).toBe(1);
  });

  it('rounds: a new one where more than the walk and ten minutes lie between', () => {
    expect(cost().rounds).toBe(3);
    const split = replaced('E/10/1', { load: by('ana', t('08:26')), start: t('08:36'), end: t('09:36') });
    expect(cost({ runs: split }).rounds).toBe(4);
    const another = replaced('E/10/1', { unload: by('ben', t('14:30')) });
    expect(cost({ runs: another }).rounds).toBe(3);
  });

  it('extraHours: attendance outside normal hours', () => {
    expect(cost().extraHours).toBeCloseTo(1 / 6, 9);
    const half = replaced('E/10/1', { unload: by('ana', t('13:55')) });
    expect(cost({ runs: half }).extraHours).toBeCloseTo(5 / 60, 9);
  });

  it('moved: another machine, or more than 30 minutes away by the clock', () => {
    // Released the day before, so its minutes count from another midnight.
    const clock = clockOn(shop.zone, '2026-11-24T00:00');
    const was = (run: string, machine: string, start: number) => planned(run, machine, start + 1440, start + 1441);
    const released = (startOfD: number) =>
      planOf(
        shop,
        [
          was('A/10/1', 'M1', t('20:00')),
          was('B/10/1', 'M1', t('20:00')),
          was('D/10/1', 'C1', startOfD),
          was('gone/10/1', 'C1', 0),
        ],
        { clock },
      );
    expect(cost({}, released(t('20:30', 1))).moved).toBe(1);
    expect(cost({}, released(t('20:31', 1))).moved).toBe(2);
    expect(cost({}, released(t('19:29', 1))).moved).toBe(2);
  });

  it('finish: hours from now to the last finish', () => {
    expect(cost().finish).toBeCloseTo(66, 9);
  });

  it('flow: hours from now to the end of each cut, to the horizon for runs left out', () => {
    expect(cost().flow).toBeCloseTo(22 + (21 + 59 / 60) + 46 + (1 + 35 / 60) + 2 * 64, 9);
  });

  it('total: weights times parts, what is gained taken off', () => {
    const weighted = shopOf(shop.jobs, { weights: { ...shop.weights, laterNights: 0.5 } });
    const { total, flow } = referee(weighted, planOf(weighted, runs, { left })).cost;
    const gained = 2 * (8 + 479 / 60) + 0.5 * 8 + 1;
    expect(total).toBeCloseTo(8 - gained + 0.2 * 3 + 3 / 6 + 0.01 * flow + 0.01 * 66, 9);
  });
});

describe('cost at the edges', () => {
  it('is nothing without jobs', () => {
    const empty = shopOf([]);
    const zero = {
      lateness: 0,
      loaded: 0,
      tonight: 0,
      laterNights: 0,
      morning: 0,
      rounds: 0,
      extraHours: 0,
      flow: 0,
      moved: 0,
      finish: 0,
    };
    expect(referee(empty, planOf(empty, [])).cost).toEqual({ ...zero, total: 0 });
  });

  it('does not count a bench, a hold or a check as cutting', () => {
    const bench = operation({ machines: [{ machine: 'B1', cycle: 60 }], load: 0, unload: 0 });
    const checked = handless({ machines: [{ machine: 'M1', cycle: 180 }], firstPiece: { after: 60, minutes: 10 } });
    const hands = shopOf([jobOf('A', [bench]), jobOf('B', [checked])]);
    const held = [
      planned('A/10/1', 'B1', t('23:00'), t('24:00'), { work: by('ben', t('23:00'), 60) }),
      // 22:00 to 23:00 and 01:10 to 03:10; the hold until 01:00 and the check do not count.
      planned('B/10/1', 'M1', t('22:00'), t('03:10', 1), { check: by('ben', t('01:00', 1)) }),
    ];
    expect(referee(hands, planOf(hands, held)).cost.tonight).toBeCloseTo(3, 9);
  });

  it('counts tonight from now on, and the whole of the night for its length', () => {
    const night = shopOf([jobOf('A', [handless({ machines: [{ machine: 'M1', cycle: 600 }] })])], {
      floor: [{ run: 'A/10/1', state: 'running', machine: 'M1', start: '2026-11-24T21:00' }],
    });
    const plan = planOf(night, [planned('A/10/1', 'M1', -180, t('07:00'))], { now: t('05:00') });
    const { breaches, cost: parts } = referee(night, plan);
    expect(breaches).toEqual([]);
    expect(parts.tonight).toBeCloseTo(1, 9);
    expect(parts.morning).toBe(1);
  });

  it('takes a break for presence, a gap of under two hours for no night, and no night for no gain', () => {
    const days = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] as const;
    const shift = (from: string, to: string) => ({ days: [...days], from, to });
    const one = handless({ machines: [{ machine: 'M1', cycle: 1380 }] });
    const of = (hours: { days: (typeof days)[number][]; from: string; to: string }[]) => {
      const around = shopOf([jobOf('A', [one])], {
        people: [{ id: 'ana', hours, breaks: [{ from: '12:00', to: '15:00' }] }],
      });
      return referee(around, planOf(around, [planned('A/10/1', 'M1', t('08:00'), t('07:00', 1))])).cost;
    };
    expect(of([shift('06:00', '04:01')])).toMatchObject({ tonight: 0, laterNights: 119 / 60, morning: 0 });
    expect(of([shift('06:00', '04:00')])).toMatchObject({ tonight: 2, laterNights: 0, morning: 1 });
    expect(of([shift('06:00', '21:00'), shift('22:00', '04:00')])).toMatchObject({ tonight: 2, morning: 1 });
  });

  it('counts no run that is done, and no job all done', () => {
    const late = { due: '2026-11-25T06:00', overdue: true };
    const done = (run: string) => ({ run, state: 'done' as const, end: '2026-11-25T07:30' });
    const all = shopOf([jobOf('A', [handless()], late)], { floor: [done('A/10/1')] });
    expect(referee(all, planOf(all, [])).cost).toMatchObject({ lateness: 0, finish: 0 });
    const half = shopOf([jobOf('A', [handless(), handless({ id: '20' })], late)], { floor: [done('A/10/1')] });
    const rest = planOf(half, [planned('A/20/1', 'M1', t('08:00'), t('09:00'))]);
    expect(referee(half, rest).cost.lateness).toBeCloseTo(3, 9);
  });

  it('does not take hours given for one date for extra', () => {
    const days = ['wed' as const];
    const person = { id: 'ana', hours: [{ days, from: '06:00', to: '14:00', extra: true }] };
    const job = jobOf('A', [operation({ load: 0 })]);
    const runs = [planned('A/10/1', 'M1', t('08:00'), t('09:00'), { unload: by('ana', t('09:00'), 10) })];
    const extra = shopOf([job], { people: [person] });
    expect(referee(extra, planOf(extra, runs)).cost.extraHours).toBeCloseTo(1 / 6, 9);
    const exceptions = [{ date: '2026-11-25', hours: [{ from: '06:00', to: '14:00' }] }];
    const normal = shopOf([job], { people: [{ ...person, exceptions }] });
    expect(referee(normal, planOf(normal, runs)).cost.extraHours).toBe(0);
  });
});
