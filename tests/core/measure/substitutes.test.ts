import { describe, expect, it } from 'vitest';
import { substitutesFor } from '../../../core/measure';
import { referee } from '../../../core/referee';
import { demoShop, type Shop } from '../../../core/shop';
import { planned } from '../engine/planned';
import { by, jobOf, operation, planOf, planned as runAt, shopOf, t } from '../referee/fixture';

const vise = operation({ fixture: 'vise' });
const shop = shopOf([jobOf('A', [vise]), jobOf('B', [vise]), jobOf('D', [vise])]);
const onM1 = (job: string, start: number, pallet: string) =>
  runAt(`${job}/10/1`, 'M1', start, start + 60, {
    pallet,
    load: by('ana', start - 10),
    unload: by('ana', start + 60),
  });
const plan = planOf(shop, [onM1('A', t('09:00'), 'P1'), onM1('B', t('10:30'), 'P2'), onM1('D', t('12:00'), 'P2')]);

describe('what may carry a run in place of its pallet', () => {
  it('is every other pallet of its fixture that is free from load to unload', () => {
    expect(substitutesFor(shop, plan, 'B/10/1')).toEqual([
      { pallet: 'P1', ready: t('10:20'), say: 'P1 is free from Wed 25 Nov 10:20 to Wed 25 Nov 11:40, the whole stay.' },
      { pallet: 'P3', ready: t('10:20'), say: 'P3 is free from Wed 25 Nov 10:20 to Wed 25 Nov 11:40, the whole stay.' },
    ]);
  });

  it('comes after those free at once if it carries something then, and waits for a gap as long as the stay', () => {
    const busy = planOf(shop, [onM1('A', t('09:00'), 'P1'), onM1('B', t('09:30'), 'P2'), onM1('D', t('11:00'), 'P1')]);
    const [free, later] = substitutesFor(shop, busy, 'B/10/1');
    expect(free).toMatchObject({ pallet: 'P3', ready: t('09:20') });
    expect(later).toEqual({
      pallet: 'P1',
      ready: t('12:10'),
      say: 'P1 carries A/10/1 until Wed 25 Nov 10:10; it is free for as long from Wed 25 Nov 12:10.',
    });
  });

  it('is never ready where the plan ends before', () => {
    const short: Shop = {
      ...shop,
      horizonDays: 1,
      pallets: shop.pallets.filter(({ id }) => id === 'P1' || id === 'P2'),
    };
    const late = planOf(short, [onM1('A', t('21:00'), 'P2'), onM1('B', t('22:30'), 'P1')]);
    expect(substitutesFor(short, late, 'A/10/1')).toMatchObject([{ pallet: 'P1', ready: t('20:50') }]);
    const clash = planOf(short, [onM1('A', t('22:00'), 'P2'), onM1('B', t('22:30'), 'P1')]);
    expect(substitutesFor(short, clash, 'A/10/1')).toEqual([
      {
        pallet: 'P1',
        ready: null,
        say: 'P1 carries B/10/1 until Wed 25 Nov 23:40, and is never free for long enough before Thu 26 Nov 00:00.',
      },
    ]);
  });

  it('is in use, carries the fixture and fits the machine', () => {
    const pallets = shop.pallets.map((pallet) => ({ ...pallet, inUse: pallet.id !== 'P1' }));
    expect(substitutesFor({ ...shop, pallets }, plan, 'B/10/1').map(({ pallet }) => pallet)).toEqual(['P3']);
    const onM2 = planOf(shop, [{ ...onM1('A', t('09:00'), 'P1'), machine: 'M2' }]);
    // P4 fits M2 alone, so it is offered before those that others may need.
    expect(substitutesFor(shop, onM2, 'A/10/1').map(({ pallet }) => pallet)).toEqual(['P4', 'P2', 'P3']);
  });

  it('is nothing for a run that is on its pallet already or needs none', () => {
    const entry = { run: 'A/10/1', machine: 'M1', pallet: 'P1', start: '2026-11-25T07:30', end: null, after: null };
    const running = { ...shop, floor: [{ ...entry, state: 'running' as const }] };
    expect(substitutesFor(running, plan, 'A/10/1')).toEqual([]);
    const bare = shopOf([jobOf('A', [operation()])]);
    expect(substitutesFor(bare, planOf(bare, []), 'A/10/1')).toEqual([]);
  });

  it('is looked for from now on where the run is left out of the plan', () => {
    const left = planOf(shop, [onM1('B', t('09:00'), 'P1')], { left: [{ run: 'A/10/1', why: 'no room' }] });
    expect(substitutesFor(shop, left, 'A/10/1').map(({ pallet, ready }) => [pallet, ready])).toEqual([
      ['P4', t('08:00')],
      ['P2', t('08:00')],
      ['P3', t('08:00')],
      ['P1', t('10:10')],
    ]);
  });

  it('keeps the plan of the demo week legal just where it is said to be free for the whole stay', async () => {
    const demo = demoShop('2026-11-25');
    const week = await planned(demo, demo.planFrom!, 50, { allocate: false });
    let [free, taken] = [0, 0];
    for (const run of week.runs.filter((_, i) => i % 4 === 0)) {
      for (const { pallet, ready } of substitutesFor(demo, week, run.run)) {
        const runs = week.runs.map((one) => (one === run ? { ...run, pallet } : one));
        const isLegal = referee(demo, { ...week, runs }).legal;
        const isFree = ready === (run.load?.start ?? run.start);
        expect(isLegal, `${run.run} on ${pallet}`).toBe(isFree);
        if (isFree) free++;
        else taken++;
      }
    }
    expect(Math.min(free, taken)).toBeGreaterThan(5);
  });
});
