import { describe, expect, it } from 'vitest';
import { referee } from '../../../core/referee';
import type { Plan, PlannedRun, Shop } from '../../../core/shop';
import {
  brief,
  by,
  type FloorInput,
  handless,
  jobOf,
  operation,
  planned,
  planOf,
  reporting,
  shopOf,
  t,
} from './fixture';

const today = (time: string) => `2026-11-25T${time}`;

function judged(shop: Shop, runs: PlannedRun[], more: Partial<Plan> = {}) {
  const { legal, breaches, conflicts } = referee(shop, planOf(shop, runs, more));
  return { legal, breaches: breaches.map(brief), conflicts: conflicts.map(brief) };
}

const conflict = (...conflicts: string[]) => ({ legal: true, breaches: [], conflicts });
const breach = (...breaches: string[]) => ({ legal: false, breaches, conflicts: [] });

describe('two runs held by the floor at one time', () => {
  const jobs = ['A', 'B', 'D'].map((id) => jobOf(id, [handless()]));
  const locked = (run: string, start: string): FloorInput => ({
    run,
    state: 'locked',
    machine: 'M1',
    start: today(start),
  });
  const both = shopOf(jobs.slice(0, 2), { floor: [locked('A/10/1', '09:00'), locked('B/10/1', '09:30')] });
  const runs = [planned('A/10/1', 'M1', t('09:00'), t('10:00')), planned('B/10/1', 'M1', t('09:30'), t('10:30'))];

  it('are a conflict where the plan reports either', () => {
    expect(judged(both, runs, reporting('A/10/1'))).toEqual(conflict('1 machine-overlap A/10/1 B/10/1'));
    expect(judged(both, runs, reporting('B/10/1'))).toEqual(conflict('1 machine-overlap A/10/1 B/10/1'));
  });

  it('are a breach where it does not', () => {
    expect(judged(both, runs)).toEqual(breach('1 machine-overlap A/10/1 B/10/1'));
    expect(judged(both, runs, reporting('D/10/1'))).toEqual(breach('1 machine-overlap A/10/1 B/10/1'));
  });

  it('are a breach where one of them could move', () => {
    const one = shopOf(jobs.slice(0, 2), { floor: [locked('A/10/1', '09:00')] });
    expect(judged(one, runs, reporting('A/10/1', 'B/10/1'))).toEqual(breach('1 machine-overlap A/10/1 B/10/1'));
    const noStart = shopOf(jobs.slice(0, 2), {
      floor: [locked('A/10/1', '09:00'), { run: 'B/10/1', state: 'locked', machine: 'M1' }],
    });
    expect(judged(noStart, runs, reporting('A/10/1', 'B/10/1'))).toEqual(breach('1 machine-overlap A/10/1 B/10/1'));
  });

  it('do not excuse a third that joins them', () => {
    const three = shopOf(jobs, { floor: [locked('A/10/1', '09:00'), locked('B/10/1', '09:30')] });
    const joined = [...runs, planned('D/10/1', 'M1', t('10:29'), t('11:29'))];
    expect(judged(three, joined, reporting('A/10/1', 'B/10/1', 'D/10/1'))).toEqual({
      legal: false,
      breaches: ['1 machine-overlap B/10/1 D/10/1'],
      conflicts: ['1 machine-overlap A/10/1 B/10/1'],
    });
  });

  it('do not excuse a third that takes one place more', () => {
    const places = ['A', 'B', 'D'].map((id) => jobOf(id, [operation({ load: 0 })]));
    const floor: FloorInput[] = ['A/10/1', 'B/10/1'].map((run) => ({ run, state: 'finished', machine: 'M1' }));
    const shop = shopOf(places, {
      floor,
      machines: [
        { id: 'M1', kind: 'mill', places: 1 },
        { id: 'M2', kind: 'mill' },
      ],
    });
    const waiting = [
      planned('A/10/1', 'M1', t('07:00'), t('08:00'), { unload: by('ana', t('12:00')) }),
      planned('B/10/1', 'M1', t('07:00'), t('08:00'), { unload: by('ana', t('12:10')) }),
    ];
    const third = planned('D/10/1', 'M1', t('09:00'), t('10:00'), { unload: by('ana', t('13:00')) });
    expect(judged(shop, [...waiting, third], reporting('A/10/1'))).toEqual({
      legal: false,
      breaches: ['3 places A/10/1 B/10/1 D/10/1'],
      conflicts: ['3 places A/10/1 B/10/1'],
    });
  });
});

describe('a lock that cannot hold', () => {
  const lock = (what: Partial<FloorInput>, job = jobOf('A', [handless()]), more = {}) =>
    shopOf([job], { floor: [{ run: 'A/10/1', state: 'locked', ...what }], ...more });
  const run = (machine: string, more: Partial<PlannedRun> = {}) => [
    planned('A/10/1', machine, t('09:00'), t('10:00'), more),
  ];

  it('on a machine that cannot do the operation stays there as a conflict', () => {
    const shop = lock({ machine: 'T1' });
    expect(judged(shop, run('T1'), reporting('A/10/1'))).toEqual(conflict('1 machine-unfit A/10/1'));
    expect(judged(shop, run('T1'))).toEqual(breach('1 machine-unfit A/10/1'));
    expect(judged(lock({ start: today('09:00') }), run('T1'), reporting('A/10/1'))).toEqual(
      breach('1 machine-unfit A/10/1'),
    );
  });

  it('on a pallet that does not suit stays on it as a conflict', () => {
    const job = jobOf('A', [handless({ fixture: 'vise' })]);
    expect(judged(lock({ pallet: 'Q1' }, job), run('M1', { pallet: 'Q1' }), reporting('A/10/1'))).toEqual(
      conflict('5 pallet-fixture A/10/1'),
    );
    expect(judged(lock({ pallet: 'P1' }, job), run('M1', { pallet: 'Q1' }), reporting('A/10/1')).legal).toBe(false);
    expect(judged(lock({ machine: 'M1' }, job), run('M1', { pallet: null }), reporting('A/10/1')).legal).toBe(false);
  });

  it('into a closure stays there as a conflict', () => {
    const closures = [{ from: today('09:30'), to: today('11:00') }];
    const machines = [
      { id: 'M1', kind: 'mill' as const, places: 2, closures },
      ...['M2', 'C1', 'C2'].map((id) => ({ id, kind: 'mill' as const })),
    ];
    const shop = lock({ machine: 'M1', start: today('09:00') }, jobOf('A', [handless()]), { machines });
    expect(judged(shop, run('M1'), reporting('A/10/1'))).toEqual(conflict('1 machine-closed A/10/1'));
  });

  it('to a time that is past stays there as a conflict', () => {
    const shop = lock({ start: today('07:00') });
    const past = [planned('A/10/1', 'M1', t('07:00'), t('08:00'))];
    expect(judged(shop, past, reporting('A/10/1'))).toEqual(conflict('10 before-now A/10/1'));
    const loaded = shopOf([jobOf('A', [handless()])], { floor: [{ run: 'A/10/1', state: 'loaded', machine: 'M1' }] });
    expect(judged(loaded, past, reporting('A/10/1'))).toEqual(breach('10 before-now A/10/1'));
  });

  it('before its parts are ready is its own conflict', () => {
    const shop = shopOf([jobOf('A', [handless(), handless({ id: '20' })])], {
      floor: [{ run: 'A/20/1', state: 'locked', machine: 'M2', start: today('09:00') }],
    });
    const runs = [planned('A/10/1', 'M1', t('08:01'), t('09:01')), planned('A/20/1', 'M2', t('09:00'), t('10:00'))];
    expect(judged(shop, runs, reporting('A/20/1'))).toEqual(conflict('6 step-before A/20/1 A/10/1'));
    const other = shopOf([jobOf('A', [handless(), handless({ id: '20' })])], {
      floor: [{ run: 'A/10/1', state: 'locked', machine: 'M1', start: today('08:01') }],
    });
    expect(judged(other, runs, reporting('A/20/1'))).toEqual(breach('6 step-before A/20/1 A/10/1'));
  });

  it('is never moved, reported or not', () => {
    const shop = lock({ machine: 'M1', start: today('09:00') });
    const moved = [planned('A/10/1', 'M1', t('09:01'), t('10:01'))];
    expect(judged(shop, moved, reporting('A/10/1'))).toEqual(breach('10 floor-start A/10/1'));
    expect(judged(shop, run('M2'), reporting('A/10/1'))).toEqual(breach('10 floor-machine A/10/1'));
  });

  it('is no excuse for a run of the wrong length, or for a wrong cost', () => {
    const shop = lock({ machine: 'M1', start: today('09:00') });
    const short = [planned('A/10/1', 'M1', t('09:00'), t('09:59'))];
    expect(judged(shop, short, reporting('A/10/1'))).toEqual(breach('1 cut-length A/10/1'));
    const plan = planOf(shop, run('M1'), reporting('A/10/1'));
    expect(referee(shop, { ...plan, cost: { ...plan.cost, rounds: 1 } }).legal).toBe(false);
  });
});
