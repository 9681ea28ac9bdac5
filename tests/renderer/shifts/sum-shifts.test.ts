import { describe, expect, it } from 'vitest';
import { USES } from '../../../renderer/shifts/columns';
import { cutOf, daysOf, nightShift, shiftTitle, sumShifts, total } from '../../../renderer/shifts/sum-shifts';
import { planView } from '../support/plan-view';

const { plan, report } = planView();
const sums = sumShifts(report.shifts);

describe('machine hours by shift', () => {
  it('sum every occurrence of a shift on a machine', () => {
    const first = sums.find((sum) => sum.shift === 'first');
    expect(first?.machines).toHaveLength(1);
    expect(first?.machines[0]?.times).toMatchObject({ window: 510, cutAttended: 90, nothingDue: 420 });
  });

  it('add up to the window on every line and in all', () => {
    const lines = sums.flatMap((sum) => [sum.times, ...sum.machines.map((machine) => machine.times)]);
    for (const times of [...lines, total(sums.map((sum) => sum.times))]) {
      expect(USES.reduce((minutes, use) => minutes + times[use.key], 0)).toBe(times.window);
    }
  });

  it('find the shift that cuts most with nobody there', () => {
    const night = nightShift(sums);
    expect(night?.shift).toBe('third');
    expect(night === null ? 0 : cutOf(night.times)).toBe(120 + 450 + 210 + 185 + 290);
    expect(nightShift(sums.filter((sum) => sum.shift !== 'third'))).toBeNull();
  });

  it('know the days on which shifts begin', () => {
    expect(daysOf(plan.clock, report.shifts)).toEqual(['Wed 25 Nov', 'Thu 26 Nov']);
  });

  it('name shifts as people say them', () => {
    expect(['third', 'Night shift', 'no shift'].map(shiftTitle)).toEqual(['Third shift', 'Night shift', 'No shift']);
  });
});
