import { describe, expect, it } from 'vitest';
import { codesOf, faultWith, type Small } from './small-shop';

const NOW = '2026-11-30T10:00';
const [first, second] = ['J-1/10/1', 'J-1/10/2'];
const behind = (run: string, after: string, more: object = {}) => ({ run, state: 'locked', after, ...more });
const put =
  (...entries: object[]) =>
  (s: Small): void => {
    s.floor.push(...entries);
  };
const secondMachine = (s: Small): void => {
  s.machines.push({ ...s.machines[0]!, id: 'M2' });
  s.jobs[0]!.route[0]!.machines.push({ machine: 'M2', cycle: 50 });
};
const secondStep = (s: Small): void => {
  s.jobs[0]!.route.push({ ...s.jobs[0]!.route[0]!, id: '20' });
};

describe('a lock behind another run', () => {
  it('is right, whether that one is free, locked, on a machine or done', () => {
    expect(codesOf(put(behind(second, first)), NOW)).toEqual([]);
    expect(codesOf(put(behind(second, first), { run: first, state: 'locked', machine: 'M1' }), NOW)).toEqual([]);
    const running = { run: first, state: 'running', machine: 'M1', pallet: 'P1', start: '2026-11-30T09:30' };
    expect(codesOf(put(behind(second, first), running), NOW)).toEqual([]);
    expect(codesOf(put(behind(second, first), { run: first, state: 'done' }), NOW)).toEqual([]);
  });

  it.each<[string, string, RegExp, (shop: Small) => void]>([
    [
      'no job calls for',
      'unknown-run',
      /there is no run J-1\/10\/9; name the right one/,
      put(behind(first, 'J-1/10/9')),
    ],
    ['which is itself', 'order-itself', /cannot follow itself/, put(behind(first, first))],
    [
      'which is locked behind it',
      'order-circle',
      /J-1\/10\/2 can only come after it/,
      put(behind(first, second), behind(second, first)),
    ],
    [
      'that its route has after it',
      'order-circle',
      /J-1\/20\/1 can only come after it, by its route/,
      (s) => {
        secondStep(s);
        s.floor.push(behind(first, 'J-1/20/1'));
      },
    ],
    [
      'that waits for its first-piece check',
      'order-circle',
      /can only come after it/,
      (s) => {
        s.jobs[0]!.route[0]!.firstPiece = { after: 5, minutes: 5 };
        s.floor.push(behind(first, second));
      },
    ],
    [
      'though it is loaded already',
      'order-not-locked',
      /it is loaded, and only a locked run can follow another/,
      put({ run: first, state: 'loaded', machine: 'M1', pallet: 'P1', after: second }),
    ],
  ])('is refused behind a run %s', (_, code, say, change) => {
    const fault = faultWith(code, change, NOW);
    expect(fault.say).toMatch(/^Floor entry J-1\/10\/1, after: /);
    expect(fault.say).toMatch(say);
    expect(fault).toMatchObject({ level: 'error', at: ['floor', 0, 'after'] });
  });

  it('is no circle where the run it seems to wait for is done', () => {
    const done = (s: Small) => {
      secondStep(s);
      s.floor.push(behind('J-1/20/1', second), { run: first, state: 'done' });
    };
    expect(codesOf(done, NOW)).toEqual([]);
  });

  it.each<[string, (shop: Small) => void]>([
    [
      'is locked to another machine',
      (s) => {
        secondMachine(s);
        s.floor.push(behind(second, first, { machine: 'M1' }), { run: first, state: 'locked', machine: 'M2' });
      },
    ],
    [
      'was done on another machine',
      (s) => {
        secondMachine(s);
        s.floor.push(behind(second, first, { machine: 'M1' }), { run: first, state: 'done', machine: 'M2' });
      },
    ],
    [
      'can only go on another machine',
      (s) => {
        secondMachine(s);
        secondStep(s);
        s.jobs[0]!.route[0]!.machines = [{ machine: 'M2', cycle: 50 }];
        s.jobs[0]!.route[1]!.machines = [{ machine: 'M1', cycle: 50 }];
        s.floor.push(behind('J-1/20/1', second));
      },
    ],
  ])('is questioned where the other run %s', (_, change) => {
    const fault = faultWith('order-apart', change, NOW);
    expect(fault.level).toBe('warning');
    expect(fault.say).toMatch(/it can go on M1 and J-1\/10\/\d on M2, so it cannot follow on the same machine/);
  });
});

describe('a withdrawn pallet', () => {
  const withdraw = (s: Small, ...ids: string[]): void => {
    s.pallets = s.pallets.map((pallet) => ({ ...pallet, inUse: !ids.includes(pallet.id) }));
  };

  it('is no fault while another one fits', () => {
    expect(codesOf((s) => withdraw(s, 'P1'), NOW)).toEqual([]);
  });

  it('is refused if it was the last that fits and something is still to be loaded', () => {
    const fault = faultWith('pallets-withdrawn', (s) => withdraw(s, 'P1', 'P2'), NOW);
    expect(fault.level).toBe('error');
    expect(fault.say).toContain('P1 and P2, the only pallets with fixture VISE for M1, are withdrawn');
    expect(fault.say).toContain('set P1 or P2 in use');
    const allLoaded = (s: Small): void => {
      withdraw(s, 'P1', 'P2');
      s.floor.push(
        { run: first, state: 'loaded', machine: 'M1', pallet: 'P1' },
        { run: second, state: 'loaded', machine: 'M1', pallet: 'P2' },
      );
    };
    expect(codesOf(allLoaded, NOW)).toEqual(['floor-pallet-withdrawn', 'floor-pallet-withdrawn']);
  });

  it('is questioned with a load on it or a lock to it', () => {
    const running = { run: first, state: 'running', machine: 'M1', pallet: 'P1', start: '2026-11-30T09:30' };
    const withEntry = (entry: object) => (s: Small) => {
      withdraw(s, 'P1');
      s.floor.push(entry);
    };
    const loaded = faultWith('floor-pallet-withdrawn', withEntry(running), NOW);
    expect(loaded).toMatchObject({ level: 'warning', at: ['floor', 0, 'pallet'] });
    expect(loaded.say).toContain('P1 is withdrawn; the run comes off it as planned');
    const locked = faultWith('floor-pallet-withdrawn', withEntry({ run: first, state: 'locked', pallet: 'P1' }), NOW);
    expect(locked.say).toContain('Set P1 in use, or lock it to another');
  });
});
