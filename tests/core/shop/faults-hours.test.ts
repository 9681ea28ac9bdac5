import { describe, expect, it } from 'vitest';
import { codesOf, faultWith, type Small } from './small-shop';

const late = (from: string, to = '22:00') => ({ days: ['mon'], from, to });

describe('hours that overlap', () => {
  it.each<[string, RegExp, (shop: Small, from: string) => void]>([
    [
      "in a person's week",
      /^Person Ada, hours 2: 13:59 to 22:00 \(mon\) overlaps 06:00 to 14:00/,
      (s, from) => s.people[0]!.hours.push(late(from)),
    ],
    [
      "on one day of a person's exceptions",
      /^Person Ada, exception 2026-12-01, hours 2: /,
      (s, from) =>
        s.people[0]!.exceptions.push({
          date: '2026-12-01',
          hours: [
            { from: '06:00', to: '14:00' },
            { from, to: '16:00' },
          ],
        }),
    ],
    [
      "in a machine's week",
      /^Machine M1, hours 2: /,
      (s, from) => s.machines[0]!.hours.push({ ...late('06:00', '14:00') }, late(from)),
    ],
  ])('%s are refused by one minute and taken when they touch', (_, say, change) => {
    const fault = faultWith('hours-overlap', (s) => change(s, '13:59'));
    expect(fault.say).toMatch(say);
    expect(fault.level).toBe('error');
    expect(codesOf((s) => change(s, '14:00'))).toEqual([]);
  });

  it('are refused for breaks by one minute and taken when they touch', () => {
    const fault = faultWith('breaks-overlap', (s) => s.people[0]!.breaks.push({ from: '09:29', to: '09:40' }));
    expect(fault.say).toMatch(/^Person Ada, break 2: 09:29 to 09:40 overlaps 09:00 to 09:30;/);
    expect(codesOf((s) => s.people[0]!.breaks.push({ from: '09:30', to: '09:40' }))).toEqual([]);
  });

  it('are refused for two parts of one shift, and a warning between two shifts', () => {
    const same = faultWith('shifts-overlap', (s) => s.shifts.push({ ...s.shifts[0], from: '13:59', to: '15:00' }));
    expect(same).toMatchObject({ level: 'error', at: ['shifts', 1] });
    const other = faultWith('shifts-overlap', (s) => s.shifts.push({ id: 'Late', ...late('13:59') }));
    expect(other.level).toBe('warning');
    expect(other.say).toMatch(/^Shift Late: .*shift Day.*twice/);
    expect(codesOf((s) => s.shifts.push({ id: 'Late', ...late('14:00') }))).toEqual([]);
  });

  it('are refused for a shift that names a day twice', () => {
    const fault = faultWith('hours-overlap', (s) => {
      s.shifts = [{ id: 'Day', days: ['mon', 'mon'], from: '06:00', to: '14:00' }];
    });
    expect(fault.say).toMatch(/^Shift Day, .*each day once/);
  });
});

describe('dates and closures', () => {
  it('refuses two exceptions on one date', () => {
    const fault = faultWith('duplicate-date', (s) =>
      s.people[0]!.exceptions.push({ date: '2026-12-01' }, { date: '2026-12-01' }),
    );
    expect(fault.say).toMatch(/^Person Ada, exception 2026-12-01: /);
    expect(fault.level).toBe('error');
  });

  it('refuses a closure that ends when it begins, and takes one of a minute', () => {
    const closed = (to: string) => (s: Small) => s.machines[0]!.closures.push({ from: '2026-12-01T06:00', to });
    const fault = faultWith('closure-backwards', closed('2026-12-01T06:00'));
    expect(fault.say).toMatch(/^Machine M1, closure 1: it ends .* correct/);
    expect(codesOf(closed('2026-12-01T06:01'))).toEqual([]);
  });
});
