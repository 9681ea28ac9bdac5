import { describe, expect, it } from 'vitest';
import { clockTimeFrom, lengthFrom } from '../../../core/time';

describe('a length of time as written', () => {
  it.each([
    ['1:45', 105],
    ['1:45:00', 105],
    ['105', 105],
    ['1h45', 105],
    ['1h 45min', 105],
    ['1.75h', 105],
    ['1,75 h', 105],
    ['90 min', 90],
  ])('%s is %i minutes', (text, minutes) => {
    expect(lengthFrom(text)).toBe(minutes);
  });

  it.each(['', '1.5', '1:60', '1:45:30', '-5', 'h', '1 45'])('%j is none', (text) => {
    expect(lengthFrom(text)).toBeNull();
  });
});

describe('a time of day as written', () => {
  it.each([
    ['6', '06:00'],
    ['0630', '06:30'],
    ['22.15', '22:15'],
    ['24:00', '24:00'],
  ])('%s is %s', (text, time) => {
    expect(clockTimeFrom(text)).toBe(time);
  });

  it.each(['', '24:01', '25', '7pm'])('%j is none', (text) => {
    expect(clockTimeFrom(text)).toBeNull();
  });
});
