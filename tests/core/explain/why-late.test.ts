import { describe, expect, it } from 'vitest';
import { whyLate } from '../../../core/explain';
import { jobOf, personOf } from '../measure/fixture';
import { op, shopWith } from './gaps-fixture';
import { legal } from './why-fixture';

// Own instances throughout: Anna is in the shop from 06:00 to 14:00, her break is from 10:00 to 10:30.

const due = { due: '2026-11-30T09:00' };

describe('a late job', () => {
  it('is told what its longest wait is for, and what would shorten that', () => {
    const shop = shopWith({
      horizonDays: 2,
      jobs: [jobOf('A', [op('10', 'M1', 60)], due), jobOf('B', [op('10', 'M1', 300)])],
    });
    const plan = legal(shop, [
      {
        run: 'B/10/1',
        machine: 'M1',
        pallet: 'P2',
        load: ['Anna', '06:00', '06:20'],
        cut: ['06:20', '11:20'],
        unload: ['Anna', '11:20', '11:30'],
      },
      {
        run: 'A/10/1',
        machine: 'M1',
        pallet: 'P1',
        load: ['Anna', '06:20', '06:40'],
        cut: ['11:20', '12:20'],
        unload: ['Anna', '12:20', '12:30'],
      },
    ]);
    expect(whyLate(shop, plan, 'A')).toEqual({
      here:
        'A is 3 h 30 min late. Op 10 waits 4 h 40 min for M1, behind B. ' +
        'A op 10 starts on M1 at Mon 11:20: M1 is busy with B op 10 until 11:20.',
      notEarlier: 'With every other run where it is, it cannot start earlier.',
      frees: [{ say: 'M1 free of other work: 4 h 40 min earlier', gain: 280 }],
      binding: ['machine'],
    });
    expect(whyLate(shop, plan, 'B').here).toBe('B is not late in this plan.');
  });

  it('that waits finished for a hand overnight is told who is not there', () => {
    const shop = shopWith({ horizonDays: 2, jobs: [jobOf('A', [op('10', 'M1', 480)], { due: '2026-11-30T20:00' })] });
    const plan = legal(shop, [
      {
        run: 'A/10/1',
        machine: 'M1',
        pallet: 'P1',
        load: ['Anna', '06:00', '06:20'],
        cut: ['06:20', '14:20'],
        unload: ['Anna', '1 06:00', '1 06:10'],
      },
    ]);
    const why = whyLate(shop, plan, 'A');
    expect(why.here).toBe(
      'A is 10 h 10 min late. Its route alone takes until Tue 06:10 with these hours. ' +
        'A op 10 on M1 waits to be taken off from Mon 14:20 until Tue 06:00: Anna is not here before Tue 06:00.',
    );
    expect(why.notEarlier).toBe('With every other run where it is, nobody can come sooner.');
    expect(why.frees).toEqual([{ say: 'A hand always there: 15 h 40 min earlier', gain: 940 }]);
    expect(why.binding).toEqual(['person']);
  });

  it('that is taken off later than somebody could come is said to wait by choice', () => {
    const shop = shopWith({ horizonDays: 2, jobs: [jobOf('A', [op('10', 'M1', 60)], due)] });
    const plan = legal(shop, [
      {
        run: 'A/10/1',
        machine: 'M1',
        pallet: 'P1',
        load: ['Anna', '06:00', '06:20'],
        cut: ['06:20', '07:20'],
        unload: ['Anna', '12:00', '12:10'],
      },
    ]);
    const why = whyLate(shop, plan, 'A');
    expect(why.here).toContain(
      'waits to be taken off from Mon 07:20 until 12:00: the plan chose so. Somebody could come at 07:20.',
    );
    expect(why.binding).toEqual(['choice']);
  });

  it('whose first piece waits for a check is told who is kept where', () => {
    const first = op('10', 'M1', 60, { firstPiece: { after: 30, minutes: 20 } });
    const shop = shopWith({
      horizonDays: 2,
      people: [personOf('Anna', '06:00', '14:00')],
      jobs: [jobOf('A', [first], { due: '2026-11-30T07:30' }), jobOf('B', [op('10', 'M2', 60, { load: 180 })])],
    });
    const plan = legal(shop, [
      {
        run: 'A/10/1',
        machine: 'M1',
        pallet: 'P1',
        load: ['Anna', '06:00', '06:20'],
        cut: ['06:20', '10:10'],
        check: ['Anna', '09:20', '09:40'],
        unload: ['Anna', '10:10', '10:20'],
      },
      {
        run: 'B/10/1',
        machine: 'M2',
        pallet: 'P2',
        load: ['Anna', '06:20', '09:20'],
        cut: ['09:20', '10:20'],
        unload: ['Anna', '10:20', '10:30'],
      },
    ]);
    const why = whyLate(shop, plan, 'A');
    expect(why.here).toContain(
      'waits for its first-piece check from Mon 06:50 until 09:20: Anna is at M2 until 09:20.',
    );
    expect(why.frees).toEqual([{ say: 'A hand always there: 2 h 30 min earlier', gain: 150 }]);
  });

  it('with a run left out is told what would let that in', () => {
    const shop = shopWith({ horizonDays: 2, people: [], jobs: [jobOf('A', [op('10', 'M1', 60)], due)] });
    const plan = legal(shop, [], { left: [{ run: 'A/10/1', why: 'nobody is ever here.' }] });
    const why = whyLate(shop, plan, 'A');
    expect(why.here).toMatch(/^A is .* late\. .* A op 10 is left out: nobody is ever here\.$/);
    expect(why.frees).toEqual([{ say: 'A hand always there: it could start on M1 at Mon 06:20', gain: 41 * 60 + 40 }]);
  });

  it('is refused where the shop has no such job', () => {
    const shop = shopWith({ horizonDays: 2, jobs: [] });
    expect(() => whyLate(shop, legal(shop, []), 'Z')).toThrow('The shop has no job Z.');
  });
});
