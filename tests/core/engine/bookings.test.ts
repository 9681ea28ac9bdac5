import { describe, expect, it } from 'vitest';
import { Bookings } from '../../../core/engine/bookings';
import { Occupancy } from '../../../core/engine/occupancy';
import { numbers } from './random-shop';

describe('bookings of one resource', () => {
  it('lets one booking begin the minute another ends', () => {
    const bookings = new Bookings();
    bookings.add(10, 20, 0, 0);
    expect(bookings.isFree(20, 30)).toBe(true);
    expect(bookings.isFree(19, 30)).toBe(false);
    expect(bookings.firstGap(5, 5)).toBe(5);
    expect(bookings.firstGap(5, 6)).toBe(20);
  });

  it('finds the same gaps as a look at every minute', () => {
    for (let seed = 1; seed <= 60; seed++) {
      const pick = numbers(seed);
      const bookings = new Bookings();
      const minutes = new Uint8Array(400);
      for (let i = 0; i < 40; i++) {
        const start = pick(280);
        const end = start + 1 + pick(12);
        if (minutes.subarray(start, end).some((taken) => taken === 1)) continue;
        minutes.fill(1, start, end);
        bookings.add(start, end, 0, 0);
      }
      const from = pick(300);
      const length = 1 + pick(20);
      let expected = from;
      while (minutes.subarray(expected, expected + length).some((taken) => taken === 1)) expected++;
      expect(bookings.firstGap(from, length), `seed ${seed}`).toBe(expected);
    }
  });

  it('holds both of two locks that overlap as one booking', () => {
    const bookings = new Bookings();
    bookings.add(10, 20, 0, 0);
    bookings.add(30, 40, 0, 0);
    bookings.add(15, 35, 0, 0);
    expect([bookings.count, bookings.start[0], bookings.end[0]]).toEqual([1, 10, 40]);
  });
});

describe('places taken over time', () => {
  it('tells when all are taken, as a count of every minute does', () => {
    for (let seed = 1; seed <= 60; seed++) {
      const pick = numbers(seed);
      const limit = 1 + pick(3);
      const places = new Occupancy(limit);
      const taken = new Int32Array(200);
      for (let i = 0; i < 12; i++) {
        const from = pick(120);
        const to = from + 1 + pick(40);
        places.add(from, to);
        for (let minute = from; minute < to; minute++) taken[minute]!++;
      }
      const from = pick(120);
      const to = from + 1 + pick(60);
      let last = -1;
      for (let minute = from; minute < to; minute++) if (taken[minute]! >= limit) last = minute;
      let end = last;
      if (last >= 0) while (taken[end]! >= limit) end++;
      expect(places.lastFull(from, to), `seed ${seed}`).toBe(last < 0 ? -1 : end);
    }
  });
});
