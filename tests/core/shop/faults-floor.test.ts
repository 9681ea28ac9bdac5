import { describe, expect, it } from 'vitest';
import { codesOf, faultWith, type Small } from './small-shop';

const NOW = '2026-11-30T10:00';
const at = (time: string): string => `2026-11-30T${time}`;
const running = { run: 'J-1/10/1', state: 'running', machine: 'M1', pallet: 'P1', start: at('09:30') };
const put =
  (...entries: object[]) =>
  (s: Small): void => {
    s.floor.push(...entries);
  };
const secondMachine = (s: Small): void => {
  s.machines.push({ ...s.machines[0]!, id: 'M2' });
};

describe('the floor', () => {
  it('is right with one run cutting, one loaded behind it, one done', () => {
    expect(codesOf(put(running, { run: 'J-1/10/2', state: 'loaded', machine: 'M1', pallet: 'P2' }), NOW)).toEqual([]);
    expect(codesOf(put({ run: 'J-1/10/1', state: 'done', end: at('10:00') }), NOW)).toEqual([]);
    expect(codesOf(put({ run: 'J-1/10/1', state: 'locked', start: at('10:00') }), NOW)).toEqual([]);
  });

  it.each<[string, string, RegExp, (shop: Small) => void]>([
    [
      'with a run entered twice',
      'floor-run-twice',
      /entered twice/,
      put(running, { run: 'J-1/10/1', state: 'loaded', machine: 'M1', pallet: 'P2' }),
    ],
    [
      'with a run loaded nowhere',
      'floor-no-machine',
      /loaded; say on which/,
      put({ ...running, state: 'loaded', machine: null }),
    ],
    ['with a run cutting nowhere', 'floor-no-machine', /running; say on which/, put({ ...running, machine: null })],
    [
      'with a run finished nowhere',
      'floor-no-machine',
      /finished; say/,
      put({ ...running, state: 'finished', machine: null }),
    ],
    ['with a run on no pallet', 'floor-no-pallet', /say on which pallet/, put({ ...running, pallet: null })],
    ['with a run cutting since nobody knows when', 'floor-no-start', /since when/, put({ ...running, start: null })],
    [
      'with a run cutting since a minute from now',
      'floor-start-ahead',
      /future/,
      put({ ...running, start: at('10:01') }),
    ],
    [
      'with a run finished a minute from now',
      'floor-end-ahead',
      /future/,
      put({ ...running, state: 'finished', end: at('10:01') }),
    ],
    [
      'with a run done before it began',
      'floor-end-first',
      /ends before it begins/,
      put({ ...running, state: 'done', end: at('09:29') }),
    ],
    [
      'with a pallet where none is needed',
      'floor-pallet-needless',
      /needs no pallet/,
      (s) => {
        s.jobs[0]!.route[0]!.fixture = null;
        s.floor.push(running);
      },
    ],
    [
      'with a run on a machine that has no cycle for it',
      'floor-machine-cannot',
      /no cycle for M2.*name one of M1/,
      (s) => {
        secondMachine(s);
        s.floor.push({ ...running, machine: 'M2', pallet: 'P2' });
      },
    ],
  ])('is refused %s', (_, code, say, change) => {
    const fault = faultWith(code, change, NOW);
    expect(fault.say).toMatch(/^Floor entry J-1\/10\/1[,:]/);
    expect(fault.say).toMatch(say);
    expect(fault.level).toBe('error');
  });

  it.each<[string, string, RegExp, (shop: Small) => void]>([
    [
      'two runs cutting on one machine',
      'floor-two-running',
      /J-1\/10\/1 is running on the same machine/,
      put(running, { ...running, run: 'J-1/10/2', pallet: 'P2' }),
    ],
    [
      'two runs on one pallet',
      'floor-pallet-twice',
      /J-1\/10\/1 is on the same pallet/,
      put(running, { ...running, run: 'J-1/10/2', state: 'loaded', start: null }),
    ],
  ])('is refused with %s, said of the second', (_, code, say, change) => {
    const fault = faultWith(code, change, NOW);
    expect(fault).toMatchObject({ level: 'error', at: ['floor', 1] });
    expect(fault.say).toMatch(/^Floor entry J-1\/10\/2: /);
    expect(fault.say).toMatch(say);
  });

  it.each<[string, string, RegExp, (shop: Small) => void]>([
    [
      'a machine out of use',
      'floor-not-in-use',
      /M1 is not in use/,
      (s) => {
        s.machines[0]!.inUse = false;
        s.floor.push(running);
      },
    ],
    [
      'a pallet with another fixture',
      'floor-pallet-unsuited',
      /P3 carries CHUCK, the operation needs VISE/,
      (s) => {
        s.pallets.push({ id: 'P3', fixture: 'CHUCK', machines: [] });
        s.floor.push({ ...running, pallet: 'P3' });
      },
    ],
    [
      'a pallet that does not fit',
      'floor-pallet-unsuited',
      /P1 does not fit M2/,
      (s) => {
        secondMachine(s);
        s.jobs[0]!.route[0]!.machines.push({ machine: 'M2', cycle: 50 });
        s.floor.push({ ...running, machine: 'M2' });
      },
    ],
    ['a lock on nothing', 'floor-lock-empty', /locked, but to nothing/, put({ run: 'J-1/10/1', state: 'locked' })],
    [
      'a lock to a time a minute past',
      'floor-lock-past',
      /already past/,
      put({ run: 'J-1/10/1', state: 'locked', start: at('09:59') }),
    ],
    [
      'more pallets than places',
      'floor-crowded',
      /machine M1 holds more pallets than its 1 places/,
      (s) => {
        s.machines[0]!.places = 1;
        s.floor.push({ run: 'J-1/10/2', state: 'loaded', machine: 'M1', pallet: 'P2' }, running);
      },
    ],
    [
      'a run ahead of the operation before it',
      'floor-order',
      /J-1\/05\/1 before it is not done/,
      (s) => {
        s.jobs[0]!.route.unshift({ ...s.jobs[0]!.route[0]!, id: '05' });
        s.floor.push(running);
      },
    ],
  ])('is questioned, not refused, with %s', (_, code, say, change) => {
    const fault = faultWith(code, change, NOW);
    expect(fault.say).toMatch(/^Floor entry J-1\/10\/1[,:]/);
    expect(fault.say).toMatch(say);
    expect(fault.level).toBe('warning');
  });

  it('counts the places of a cell over all its machines', () => {
    const inCell = (places: number) => (s: Small) => {
      s.cells.push({ id: 'C', places });
      s.machines[0]!.cell = 'C';
      s.floor.push(running, { run: 'J-1/10/2', state: 'loaded', machine: 'M1', pallet: 'P2' });
    };
    expect(faultWith('floor-crowded', inCell(1), NOW).say).toContain('cell C');
    expect(codesOf(inCell(2), NOW)).toEqual([]);
  });
});
