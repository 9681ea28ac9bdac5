import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  parseChance,
  parseClockTime,
  parseDate,
  parseId,
  parseLength,
  parseMinutesList,
  parseMoment,
  parseOptionalMoment,
  parseOptionalWhole,
  parsePlaces,
  parseReckonedMinutes,
  parseShare,
  parseSomeLength,
  parseWhole,
  parseWords,
  showDate,
  showLength,
  showMinutesList,
  showMoment,
  showPercent,
  showPlaces,
} from '../../../renderer/tables';

/** A Wednesday. */
const NEAR = '2026-11-25T13:00';

describe('a length of time', () => {
  it.each([
    ['1:45', 105],
    ['105', 105],
    ['1h45', 105],
    ['1 h 45', 105],
    ['1 h 45 min', 105],
    ['1.75 h', 105],
    ['1,75h', 105],
    ['105 min', 105],
    ['0:05', 5],
    ['1:45:00', 105],
    ['1h 45min', 105],
    ['1H45M', 105],
    ['90 min', 90],
    ['2h', 120],
    ['30:00', 1800],
    ['0', 0],
  ])('reads %s as %i minutes', (typed, minutes) => {
    expect(parseLength(typed)).toEqual({ ok: true, value: minutes });
  });

  it.each(['', 'long', '1:75', '-5', '1:2:3', '1:45:30', '1.5', '1h75'])(
    'refuses "%s" and says how to type it',
    (typed) => {
      const parsed = parseLength(typed);
      expect(parsed.ok).toBe(false);
      if (!parsed.ok) expect(parsed.say).toContain('1:45');
    },
  );

  it('to reckon with may have decimals', () => {
    expect(parseReckonedMinutes('7,5')).toEqual({ ok: true, value: 7.5 });
    expect(parseReckonedMinutes('1:30')).toEqual({ ok: true, value: 90 });
    expect(parseReckonedMinutes('long').ok).toBe(false);
  });

  it('reads back what it shows, whatever the length', () => {
    fc.assert(
      fc.property(fc.nat({ max: 100_000 }), (minutes) => {
        expect(parseLength(showLength(minutes))).toEqual({ ok: true, value: minutes });
      }),
      { seed: 1 },
    );
  });

  it('refuses nothing where it must be something', () => {
    expect(parseSomeLength('0:00').ok).toBe(false);
    expect(parseSomeLength('0:01')).toEqual({ ok: true, value: 1 });
  });
});

describe('a date and time', () => {
  it.each([
    ['27 Nov 16:00', '2026-11-27T16:00'],
    ['Fri 27 Nov 16:00', '2026-11-27T16:00'],
    ['27 november 16:00', '2026-11-27T16:00'],
    ['2026-11-27 16:00', '2026-11-27T16:00'],
    ['2026-11-27T16:00', '2026-11-27T16:00'],
    ['fri 16:00', '2026-11-27T16:00'],
    ['wed 16:00', '2026-11-25T16:00'],
    ['tuesday 6', '2026-12-01T06:00'],
    ['27.11. 16:00', '2026-11-27T16:00'],
    ['8 Jan 07:30', '2027-01-08T07:30'],
    ['8 Jan 2028 07:30', '2028-01-08T07:30'],
    ['29 Feb 2028 12:00', '2028-02-29T12:00'],
  ])('reads %s as %s', (typed, moment) => {
    expect(parseMoment(NEAR)(typed)).toEqual({ ok: true, value: moment });
  });

  it.each(['', 'soon', '31 Nov 16:00', '27 Nov', 'fri', '27 Nov 25:00', '2026-02-30 10:00', '27 Foo 16:00'])(
    'refuses "%s" and says how to type it',
    (typed) => {
      const parsed = parseMoment(NEAR)(typed);
      expect(parsed.ok).toBe(false);
      if (!parsed.ok) expect(parsed.say).toContain('27 Nov 16:00');
    },
  );

  it('says that the time of day is missing where only that is', () => {
    expect(parseMoment(NEAR)('27 Nov')).toEqual({ ok: false, say: expect.stringContaining('no time of day') });
  });

  it('shows the year only where it would be read as another one', () => {
    expect(showMoment('2026-11-27T16:00', NEAR)).toBe('Fri 27 Nov 16:00');
    expect(showMoment('2027-01-08T07:30', NEAR)).toBe('Fri 8 Jan 07:30');
    expect(showMoment('2028-01-08T07:30', NEAR)).toBe('Sat 8 Jan 2028 07:30');
  });

  it('reads back what it shows, whatever the day', () => {
    fc.assert(
      fc.property(fc.integer({ min: -1500, max: 1500 }), (days) => {
        const date = new Date(Date.UTC(2026, 10, 25) + days * 86_400_000).toISOString().slice(0, 10);
        expect(parseMoment(NEAR)(showMoment(`${date}T06:05`, NEAR))).toEqual({ ok: true, value: `${date}T06:05` });
        expect(parseDate(NEAR)(showDate(date, NEAR))).toEqual({ ok: true, value: date });
      }),
      { seed: 1 },
    );
  });

  it('takes nothing for none where there may be none', () => {
    expect(parseOptionalMoment(NEAR)('  ')).toEqual({ ok: true, value: null });
    expect(parseOptionalMoment(NEAR)('fri 16:00')).toEqual({ ok: true, value: '2026-11-27T16:00' });
  });
});

describe('a time of day', () => {
  it.each([
    ['6', '06:00'],
    ['6:30', '06:30'],
    ['0630', '06:30'],
    ['22.15', '22:15'],
    ['24:00', '24:00'],
  ])('reads %s as %s', (typed, time) => {
    expect(parseClockTime(typed)).toEqual({ ok: true, value: time });
  });

  it.each(['', '25:00', '24:01', '6:60', 'noon'])('refuses "%s"', (typed) => {
    expect(parseClockTime(typed).ok).toBe(false);
  });
});

describe('other values', () => {
  it('reads pallet places as a number, the table or no limit, and shows them so', () => {
    expect(parsePlaces('6')).toEqual({ ok: true, value: 6 });
    expect(parsePlaces('Table')).toEqual({ ok: true, value: 0 });
    expect(parsePlaces('no limit')).toEqual({ ok: true, value: null });
    expect(parsePlaces('many').ok).toBe(false);
    expect([6, 0, null].map(showPlaces)).toEqual(['6', 'table', 'no limit']);
  });

  it('refuses a whole number below the least', () => {
    expect(parseWhole(1)('0').ok).toBe(false);
    expect(parseWhole(1)('1')).toEqual({ ok: true, value: 1 });
    expect(parseWhole(0)('1.5').ok).toBe(false);
  });

  it('takes each word of a list once', () => {
    expect(parseWords('milling, grinding ,, milling')).toEqual({ ok: true, value: ['milling', 'grinding'] });
  });

  it('refuses a slash in a short name', () => {
    expect(parseId('J/1').ok).toBe(false);
    expect(parseId(' J-1 ')).toEqual({ ok: true, value: 'J-1' });
  });
});

describe('a percentage', () => {
  it.each([
    ['80', 0.8],
    ['80 %', 0.8],
    ['2,5', 0.025],
    ['0.1%', 0.001],
    ['14', 0.14],
    ['0', 0],
    ['100', 1],
  ])('%s is a share of %d', (typed, share) => {
    expect(parseShare(typed)).toEqual({ ok: true, value: share });
  });

  it.each(['', '-1', '100.1', 'half', '1e1'])('refuses "%s"', (typed) => {
    expect(parseShare(typed)).toMatchObject({ ok: false, say: expect.stringContaining('from 0 to 100') });
  });

  it('is a chance only below 100', () => {
    expect(parseChance('99.9')).toEqual({ ok: true, value: 0.999 });
    expect(parseChance('100')).toMatchObject({ ok: false, say: expect.stringContaining('always fails') });
  });

  it('is read back as it is shown, to a hundredth of a percent', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 10_000 }), (hundredths) => {
        const share = hundredths / 10_000;
        expect(parseShare(showPercent(share))).toEqual({ ok: true, value: share });
      }),
    );
  });
});

describe('a list of minutes', () => {
  it.each([
    ['150, 240', [150, 240]],
    ['150 240', [150, 240]],
    ['150;2:30', [150, 150]],
    ['', []],
    ['0', [0]],
  ])('reads "%s"', (typed, minutes) => {
    expect(parseMinutesList(typed)).toEqual({ ok: true, value: minutes });
  });

  it('names the part that is no length, and reads back what it shows', () => {
    expect(parseMinutesList('150, some')).toMatchObject({ ok: false, say: expect.stringContaining('"some"') });
    expect(parseMinutesList(showMinutesList([40, 120, 120]))).toEqual({ ok: true, value: [40, 120, 120] });
  });
});

it('takes nothing for no limit, and no limit of nothing', () => {
  expect(parseOptionalWhole(' ')).toEqual({ ok: true, value: null });
  expect(parseOptionalWhole('4')).toEqual({ ok: true, value: 4 });
  expect(parseOptionalWhole('0')).toMatchObject({ ok: false });
});
