import { describe, expect, it } from 'vitest';
import { referee } from '../../../core/referee';
import type { Plan, PlannedRun, Shop } from '../../../core/shop';
import { brief, type FloorInput, handless, jobOf, planned, planOf, reporting, shopOf, t } from './fixture';

const jobs = ['A', 'B', 'D'].map((id) => jobOf(id, [handless()]));
const behind = (run: string, after: string, more: Partial<FloorInput> = {}): FloorInput => ({
  run,
  state: 'locked',
  after,
  ...more,
});
const order = (...floor: FloorInput[]) => shopOf(jobs, { floor });
const run = (id: string, machine: string, start: string) => planned(`${id}/10/1`, machine, t(start), t(start) + 60);

function judged(shop: Shop, runs: PlannedRun[], more: Partial<Plan> = {}) {
  const missing = jobs.map(({ id }) => `${id}/10/1`).filter((id) => runs.every((one) => one.run !== id));
  const left = missing.map((id) => ({ run: id, why: 'no room' }));
  const { breaches, conflicts } = referee(shop, planOf(shop, runs, { left, ...more }));
  return { breaches: breaches.map(brief), conflicts: conflicts.map(brief) };
}

const legal = { breaches: [], conflicts: [] };

describe('a run locked behind another', () => {
  const shop = order(behind('B/10/1', 'A/10/1'));

  it('may start the minute that one has been cut, and with others between', () => {
    expect(judged(shop, [run('A', 'M1', '09:00'), run('B', 'M1', '10:00')])).toEqual(legal);
    expect(judged(shop, [run('A', 'M1', '09:00'), run('D', 'M1', '10:00'), run('B', 'M1', '14:00')])).toEqual(legal);
  });

  it('may not start a minute sooner, nor on another machine', () => {
    const early = judged(shop, [run('A', 'M1', '09:00'), run('B', 'M1', '08:00')]);
    expect(early.breaches).toEqual(['10 order-start B/10/1 A/10/1']);
    const elsewhere = judged(shop, [run('A', 'M1', '09:00'), run('B', 'M2', '10:00')]);
    expect(elsewhere.breaches).toEqual(['10 order-machine B/10/1 A/10/1']);
  });

  it('is left out with it', () => {
    expect(judged(shop, [run('B', 'M1', '10:00')]).breaches).toEqual(['10 order-left B/10/1 A/10/1']);
    expect(judged(shop, [run('D', 'M1', '10:00')])).toEqual(legal);
  });

  it('keeps to the machine a done one was cut on, if the floor says it', () => {
    const plan = [run('B', 'M1', '08:00'), run('D', 'M2', '09:00')];
    const done = (machine: string | null) =>
      order(behind('B/10/1', 'A/10/1'), { run: 'A/10/1', state: 'done', machine });
    const nothingLeft = { left: [] };
    expect(judged(done('M1'), plan, nothingLeft)).toEqual(legal);
    expect(judged(done(null), plan, nothingLeft)).toEqual(legal);
    expect(judged(done('M2'), plan, nothingLeft).breaches).toEqual(['10 order-machine B/10/1 A/10/1']);
  });

  it('cannot be excused by being reported while it could move', () => {
    const runs = [run('A', 'M1', '09:00'), run('B', 'M1', '08:00')];
    expect(judged(shop, runs, reporting('B/10/1')).breaches).toEqual(['10 order-start B/10/1 A/10/1']);
  });
});

describe('an order that cannot hold', () => {
  it('is a conflict where the run has a start as well, and the plan reports it', () => {
    const shop = order(behind('B/10/1', 'A/10/1', { start: '2026-11-25T08:30' }));
    const runs = [run('A', 'M1', '09:30'), run('B', 'M1', '08:30')];
    expect(judged(shop, runs, reporting('B/10/1'))).toEqual({
      breaches: [],
      conflicts: ['10 order-start B/10/1 A/10/1'],
    });
    expect(judged(shop, runs).breaches).toEqual(['10 order-start B/10/1 A/10/1']);
  });

  it('is a conflict where no machine suits all that are tied together, and the plan reports it', () => {
    const runs = [run('A', 'M1', '09:00'), run('D', 'M2', '09:00'), run('B', 'M1', '10:00')];
    const locked = (machine: string): FloorInput => ({ run: 'A/10/1', state: 'locked', machine });
    const tied = [behind('B/10/1', 'A/10/1'), behind('D/10/1', 'B/10/1', { machine: 'M2' })];
    const apart = order(locked('M1'), ...tied);
    expect(judged(apart, runs, reporting('D/10/1'))).toEqual({
      breaches: [],
      conflicts: ['10 order-machine D/10/1 B/10/1'],
    });
    const together = order(locked('M2'), ...tied);
    expect(judged(together, runs, reporting('A/10/1', 'D/10/1')).breaches).toContain('10 order-machine D/10/1 B/10/1');
  });

  it('may be out of use on all machines in common', () => {
    const two = (machine: string) => jobOf(machine, [handless({ machines: [{ machine, cycle: 60 }] })]);
    const machines = shopOf([]).machines.map((m) => ({ ...m, inUse: m.id !== 'M1' }));
    const both = jobOf('A', [handless()]);
    const shop = shopOf([both, two('M1')], { machines, floor: [behind('A/10/1', 'M1/10/1')] });
    const runs = [planned('A/10/1', 'M2', t('09:00'), t('10:00'))];
    const left = [{ run: 'M1/10/1', why: 'not in use' }];
    const verdict = referee(shop, planOf(shop, runs, { left, ...reporting('A/10/1') }));
    expect(verdict.breaches).toEqual([]);
    expect(verdict.conflicts.map(brief)).toEqual(['10 order-left A/10/1 M1/10/1']);
  });
});
