import { describe, expect, it } from 'vitest';
import { clockOn, clockText, dayText, hoursText, lengthText, momentText } from '../../../core/time';

describe('times in words', () => {
  const clock = clockOn('Europe/Berlin', '2026-10-24T00:00');

  it('name the day and the 24-hour time', () => {
    expect(dayText(clock, 0)).toBe('Sat 24 Oct');
    expect(momentText(clock, 22 * 60 + 5)).toBe('Sat 22:05');
  });

  it('follow the clocks when they go back', () => {
    expect(clockText(clock, 1440 + 179)).toBe('02:59');
    expect(clockText(clock, 1440 + 180)).toBe('02:00');
  });

  it('say lengths in hours and minutes', () => {
    expect(lengthText(59)).toBe('59 min');
    expect(lengthText(60)).toBe('1 h');
    expect(lengthText(65)).toBe('1 h 05 min');
    expect(lengthText(-90)).toBe('-1 h 30 min');
    expect(hoursText(2472)).toBe('41.2 h');
  });
});
