import { describe, expect, it } from 'vitest';
import { jobOf, personOf } from '../measure/fixture';
import { op } from './gaps-fixture';
import { AHEAD, CANNOT, why } from './why-fixture';

describe('a run that waits for', () => {
  it('its machine is told which run holds it until when, and that the machine free would let it start at once', () => {
    const jobs = [jobOf('A', [op('10', 'M1', 60)]), jobOf('B', [op('10', 'M1', 300)])];
    const run = {
      run: 'A/10/1',
      machine: 'M1',
      pallet: 'P1',
      load: ['Anna', '06:20', '06:40'],
      cut: ['11:20', '12:20'],
      unload: ['Anna', '12:20', '12:30'],
    } as const;
    expect(why({ jobs }, 'A/10/1', [AHEAD, run])).toEqual({
      here: 'A op 10 starts on M1 at Mon 11:20: M1 is busy with B op 10 until 11:20.',
      notEarlier: CANNOT,
      // Loaded from 06:20, when Anna has loaded B.
      frees: [{ say: 'M1 free of other work: 4 h 40 min earlier', gain: 280 }],
      binding: ['machine'],
    });
  });

  it('a person is told from when somebody is there', () => {
    const run = {
      run: 'A/10/1',
      machine: 'M1',
      pallet: 'P1',
      load: ['Anna', '06:00', '06:20'],
      cut: ['06:20', '07:20'],
      unload: ['Anna', '07:20', '07:30'],
    } as const;
    expect(why({ jobs: [jobOf('A', [op('10', 'M1', 60)])] }, 'A/10/1', [run], { now: '04:00' })).toEqual({
      here: 'A op 10 starts on M1 at Mon 06:20: nobody is free to load it: Anna is not here before 06:00.',
      notEarlier: CANNOT,
      frees: [{ say: 'A hand always there: 2 h earlier', gain: 120 }],
      binding: ['person'],
    });
  });

  it('a pallet is told which one is free first, and where it is until then', () => {
    const jobs = [jobOf('A', [op('10', 'M1', 60)]), jobOf('B', [op('10', 'M2', 180)])];
    const runs = [
      { ...AHEAD, machine: 'M2', pallet: 'P1', cut: ['06:20', '09:20'], unload: ['Anna', '09:20', '09:30'] },
      {
        run: 'A/10/1',
        machine: 'M1',
        pallet: 'P1',
        load: ['Anna', '09:30', '09:50'],
        cut: ['09:50', '10:50'],
        unload: ['Anna', '10:50', '11:00'],
      },
    ] as const;
    expect(why({ jobs, pallets: [{ id: 'P1', fixture: 'F' }] }, 'A/10/1', runs)).toEqual({
      here: 'A op 10 starts on M1 at Mon 09:50: the only pallet with fixture F is taken; P1 is on M2 with B op 10 until 09:30.',
      notEarlier: CANNOT,
      frees: [{ say: 'One more pallet with fixture F: 3 h 10 min earlier', gain: 190 }],
      binding: ['pallet'],
    });
  });

  it('a place is told what is taken off when, and no machine or hand would help', () => {
    const jobs = [jobOf('A', [op('10', 'M1', 60)]), jobOf('B', [op('10', 'M1', 60)])];
    const runs = [
      { ...AHEAD, cut: ['06:20', '07:20'], unload: ['Anna', '09:00', '09:10'] },
      {
        run: 'A/10/1',
        machine: 'M1',
        pallet: 'P1',
        load: ['Anna', '09:10', '09:30'],
        cut: ['09:30', '10:30'],
        unload: ['Anna', '10:30', '10:40'],
      },
    ] as const;
    expect(why({ jobs, machines: [{ id: 'M1', kind: 'mill', places: 1 }] }, 'A/10/1', runs)).toEqual({
      here: 'A op 10 starts on M1 at Mon 09:30: its only place is held until B op 10 is taken off at 09:10.',
      notEarlier: CANNOT,
      frees: [{ say: 'One more place at M1: 2 h 10 min earlier', gain: 130 }],
      binding: ['place'],
    });
  });

  it('a load station is told what it is in use for', () => {
    const jobs = [jobOf('A', [op('10', 'M1', 60)]), jobOf('B', [op('10', 'M2', 60)])];
    const people = ['Anna', 'Ben'].map((id) => personOf(id, '06:00', '14:00'));
    const machines = ['M1', 'M2'].map((id) => ({ id, kind: 'mill' as const, cell: 'C1' }));
    const runs = [
      {
        ...AHEAD,
        machine: 'M2',
        load: ['Ben', '06:00', '06:20'],
        cut: ['06:20', '07:20'],
        unload: ['Ben', '07:20', '07:30'],
      },
      {
        run: 'A/10/1',
        machine: 'M1',
        pallet: 'P1',
        load: ['Anna', '06:20', '06:40'],
        cut: ['06:40', '07:40'],
        unload: ['Anna', '07:40', '07:50'],
      },
    ] as const;
    const parts = { jobs, people, machines, cells: [{ id: 'C1', places: 6, stations: 1 }] };
    expect(why(parts, 'A/10/1', runs)).toEqual({
      here: 'A op 10 starts on M1 at Mon 06:40: the load station of cell C1 is in use for the load of B op 10 until 06:20.',
      notEarlier: CANNOT,
      frees: [{ say: 'One more load station in cell C1: 20 min earlier', gain: 20 }],
      binding: ['station'],
    });
  });

  it('two things at once is told both, and that neither alone would do', () => {
    const bare = { load: 0, unload: 0 };
    const jobs = [jobOf('A', [op('10', 'M1', 60, bare)]), jobOf('B', [op('10', 'M1', 300, bare)])];
    const runs = [
      { run: 'B/10/1', machine: 'M1', pallet: 'P1', cut: ['06:00', '11:00'] },
      { run: 'A/10/1', machine: 'M1', pallet: 'P1', cut: ['11:00', '12:00'] },
    ] as const;
    expect(why({ jobs, pallets: [{ id: 'P1', fixture: 'F' }] }, 'A/10/1', runs)).toEqual({
      here: 'A op 10 starts on M1 at Mon 11:00: M1 is busy with B op 10 until 11:00 and the only pallet with fixture F is taken; P1 is on M1 with B op 10 until 11:00.',
      notEarlier: 'With every other run where it is, it cannot start earlier, and no one thing alone would let it.',
      frees: [{ say: 'M1 free of other work and one more pallet with fixture F: 5 h earlier', gain: 300 }],
      binding: ['machine', 'pallet'],
    });
  });
});
