import { describe, expect, it } from 'vitest';
import { referee } from '../../../core/referee';
import { clockOn } from '../../../core/time';
import { broken, by, handless, jobOf, operation, planned, planOf, shopOf, t } from './fixture';

/** Clocks in Berlin go back on 25 October 2026 at 03:00 and forward on 29 March 2026 at 02:00: IANA time zone data. */
const AUTUMN = { clock: clockOn('Europe/Berlin', '2026-10-24T00:00'), horizon: 3 * 1440 + 60 };
const SPRING = { clock: clockOn('Europe/Berlin', '2026-03-28T00:00'), horizon: 3 * 1440 - 60 };
const NINE = t('22:00') + 9 * 60;
const SEVEN = t('22:00') + 7 * 60;

const job = jobOf('A', [operation({ load: 0 })]);
const takenOff = (at: number) => [planned('A/10/1', 'M1', t('08:00'), t('09:00'), { unload: by('nell', at) })];

describe('the night in which the clocks change', () => {
  const nights = shopOf([job], {
    people: [{ id: 'nell', hours: [{ days: ['sat'], from: '22:00', to: '06:00' }] }],
  });

  it('gives a night shift of nine hours in autumn', () => {
    expect(broken(nights, takenOff(NINE - 10), AUTUMN)).toEqual([]);
    expect(broken(nights, takenOff(NINE - 9), AUTUMN)).toEqual(['2 person-hours A/10/1']);
  });

  it('gives a night shift of seven hours in spring', () => {
    expect(broken(nights, takenOff(SEVEN - 10), SPRING)).toEqual([]);
    expect(broken(nights, takenOff(SEVEN - 9), SPRING)).toEqual(['2 person-hours A/10/1']);
  });

  it('is told by the clock on the wall', () => {
    const plan = planOf(nights, takenOff(NINE - 9), AUTUMN);
    expect(referee(nights, plan).breaches[0]?.say).toContain('from Sun 25 Oct 05:51 to Sun 25 Oct 06:01');
  });

  it('moves the horizon with it', () => {
    expect(broken(nights, takenOff(NINE - 10), { ...AUTUMN, horizon: 3 * 1440 })).toEqual(['0 horizon-claimed']);
    expect(broken(nights, takenOff(SEVEN - 10), { ...SPRING, horizon: 3 * 1440 })).toEqual(['0 horizon-claimed']);
  });

  it('has as many hours to cut unattended as it is long', () => {
    const all = ['mon', 'tue', 'wed', 'thu', 'fri', 'sat', 'sun'] as const;
    const days = shopOf([jobOf('A', [handless({ machines: [{ machine: 'M1', cycle: 1440 }] })])], {
      people: [{ id: 'ana', hours: [{ days: [...all], from: '06:00', to: '22:00' }] }],
    });
    const through = [planned('A/10/1', 'M1', t('20:00'), t('20:00') + 1440)];
    expect(referee(days, planOf(days, through, AUTUMN)).cost.tonight).toBe(9);
    expect(referee(days, planOf(days, through, SPRING)).cost.tonight).toBe(7);
  });

  it('keeps the moment on its own day to the last minute of a long one', () => {
    const sunday = { clock: clockOn('Europe/Berlin', '2026-10-25T00:00'), horizon: 3 * 1440 + 60 };
    const late = shopOf([jobOf('A', [handless()])]);
    const run = [planned('A/10/1', 'M1', 1600, 1660)];
    expect(broken(late, run, { ...sunday, now: 1499 })).toEqual([]);
    expect(broken(late, run, { ...sunday, now: 1500 })).toEqual(['0 clock']);
  });
});
