import { describe, expect, it } from 'vitest';
import { parseShop } from '../../../core/shop';
import { codesOf, faultWith, type Small, smallShop } from './small-shop';

const tool = (more: object) => (s: Small) => {
  Object.assign(s.tools[0]!, more);
  s.machines[0]!.magazine[0]!.left = [];
};
const use = (s: Small, minutes: number): void => {
  s.jobs[0]!.route[0]!.tools = [{ tool: 'EM10', minutes }];
};
const secondMachine = (s: Small, more: object): void => {
  s.machines.push({ ...s.machines[0]!, id: 'M2', ...more });
  s.jobs[0]!.route[0]!.machines.push({ machine: 'M2', cycle: 60 });
};
const of =
  (...codes: string[]) =>
  (code: string) =>
    codes.includes(code);
const lasting = of('tool-too-short', 'tool-day-only');

describe('a finish tool', () => {
  const finish = (minutes: number) => (s: Small) => {
    Object.assign(s.tools[0]!, { life: 50, finish: true });
    s.machines[0]!.magazine[0]!.left = [50, 50];
    use(s, minutes);
  };

  it('is refused one minute longer than a new one lasts, however many there are', () => {
    const fault = faultWith('tool-too-short', finish(51));
    expect(fault).toMatchObject({ level: 'error', at: ['jobs', 0, 'route', 0, 'tools', 0] });
    expect(fault.say).toMatch(/^Job J-1, operation 10, tool EM10: no plan can cut it: a run on M1 needs 51 min of it/);
    expect(fault.say).toMatch(/a new one lasts 50 min\. To help: put fewer parts on a pallet, split/);
  });

  it('runs by day only beyond what a new one may give at night, and at night up to there', () => {
    // 80 % of 50.
    const fault = faultWith('tool-day-only', finish(41));
    expect(fault.level).toBe('warning');
    expect(fault.say).toMatch(/runs by day only: a run needs 41 min of EM10, of which M1 may use up 40 min at night/);
    expect(codesOf(finish(50)).filter(lasting)).toEqual(['tool-day-only']);
    expect(codesOf(finish(40))).toEqual([]);
  });

  it('too short on one machine is said of that machine, as long as another can', () => {
    // Repeats are a larger share of a shorter cycle, and lengthen a tool's cut by that share: 35 x 86 / 60 is 50.2.
    const repeating = (repeat: number) => (s: Small) => {
      finish(35)(s);
      Object.assign(s.jobs[0]!.route[0]!, { checks: [{ chance: 0.5, repeat, most: 1 }] });
      s.machines.push({ ...s.machines[0]!, id: 'M2' });
      s.jobs[0]!.route[0]!.machines.push({ machine: 'M2', cycle: 600 });
    };
    const fault = faultWith('tool-too-short', repeating(26));
    expect(fault.level).toBe('warning');
    expect(fault.say).toMatch(
      /EM10 does not last on M1, so the operation is never cut there: a run on M1 needs 51 min of it/,
    );
    expect(faultWith('tool-day-only', repeating(25)).say).toMatch(/the operation runs by day only on M1: a run/);
  });

  it('is not asked about runs that are over or begun', () => {
    const done = (state: string) => (s: Small) => {
      finish(51)(s);
      const started = { machine: 'M1', pallet: 'P1', start: '2026-11-30T05:00' };
      s.floor.push({ run: 'J-1/10/1', state: 'done' }, { run: 'J-1/10/2', state, ...started });
    };
    expect(codesOf(done('running')).filter(lasting)).toEqual([]);
    expect(codesOf(done('loaded')).filter(lasting)).toEqual(['tool-too-short']);
  });
});

describe('a wheel dressed by hand', () => {
  const dressed = (minutes: number) => (s: Small) => {
    Object.assign(s.tools[0]!, { kind: 'wheel', life: 900, dressing: { every: 50, minutes: 10, by: 'hand' } });
    use(s, minutes);
  };

  it('is refused a cut of more than one interval, to the minute', () => {
    const fault = faultWith('tool-too-short', dressed(51));
    expect(fault.level).toBe('error');
    expect(fault.say).toMatch(
      /needs 51 min of it, and it is dressed by hand after 50 min\. To help: .*dress it less often/,
    );
    expect(codesOf(dressed(50))).toEqual([]);
  });

  it('dressed by the machine has no such limit', () => {
    const byMachine = (s: Small): void => {
      dressed(51)(s);
      Object.assign(s.tools[0]!, { dressing: { every: 50, minutes: 4 } });
    };
    expect(codesOf(byMachine)).toEqual([]);
  });
});

describe('a tool that follows its sisters', () => {
  const sisters = (left: number[], minutes: number) => (s: Small) => {
    s.tools[0]!.life = 25;
    s.machines[0]!.magazine[0]!.left = left;
    use(s, minutes);
  };

  it('may be shorter than a run, as long as there are enough of them', () => {
    expect(codesOf(sisters([0, 5], 40))).toEqual([]);
    expect(codesOf(sisters([0, 5], 41))).toEqual(['tool-day-only']);
    expect(codesOf(sisters([0, 5], 50))).toEqual(['tool-day-only']);
  });

  it('is refused where all of them new do not last for one run', () => {
    const fault = faultWith('tool-too-short', sisters([0, 5], 51));
    expect(fault.level).toBe('error');
    expect(fault.say).toMatch(
      /needs 51 min of it, and all 2 there new last 50 min\. To help: give M1 more sister tools/,
    );
  });

  it('counts as one where the magazine holds none', () => {
    const none = sisters([], 26);
    expect(codesOf(none)).toEqual(['tool-not-held', 'tool-too-short']);
    expect(faultWith('tool-too-short', none).say).toMatch(/and the one there new last/);
  });
});

describe('a magazine', () => {
  it('with more left than the tool lasts gets a warning, to the minute', () => {
    const left = (minutes: number) => (s: Small) => {
      s.machines[0]!.magazine[0]!.left = [30, minutes];
    };
    const fault = faultWith('tool-left-over-life', left(91));
    expect(fault).toMatchObject({ level: 'warning', at: ['machines', 0, 'magazine', 0, 'left', 1] });
    expect(fault.say).toMatch(
      /^Machine M1, magazine tool EM10, left 2: 1 h 31 min are left .* lasts 1 h 30 min; correct/,
    );
    expect(codesOf(left(90))).toEqual([]);
  });

  it('without a tool that is used there gets a warning, once', () => {
    const none = (s: Small): void => {
      s.machines[0]!.magazine = [];
      s.jobs.push({ ...s.jobs[0]!, id: 'J-2' });
    };
    const fault = faultWith('tool-not-held', none);
    expect(fault).toMatchObject({ level: 'warning', at: ['machines', 0, 'magazine'] });
    expect(fault.say).toMatch(/^Machine M1, magazine: it holds no EM10, which J-1\/10 and J-2\/10 would use there/);
    expect(fault.say).toMatch(/a preset tool must be put in first, and is planned as a replacement/);
    expect(codesOf(none)).toEqual(['tool-not-held']);
  });

  it('of a machine out of use, or of a tool no run there still needs, is not asked', () => {
    expect(codesOf((s) => secondMachine(s, { inUse: false, magazine: [] }))).not.toContain('tool-not-held');
    expect(codesOf((s) => s.machines.push({ ...s.machines[0]!, id: 'M2', magazine: [] }))).toEqual([]);
  });

  it('of a bench is not asked: nobody keeps count of tools there', () => {
    expect(codesOf((s) => Object.assign(s.machines[0]!, { kind: 'bench', magazine: [] }))).toEqual([]);
  });
});

describe('a tool nobody listed', () => {
  it.each<[string, RegExp, (s: Small) => void]>([
    [
      'in an operation',
      /^Job J-1, operation 10, tool EM99, tool: /,
      (s) => s.jobs[0]!.route[0]!.tools.push({ tool: 'EM99', minutes: 1 }),
    ],
    [
      'in a magazine',
      /^Machine M1, magazine tool EM99, tool: /,
      (s) => s.machines[0]!.magazine.push({ tool: 'EM99', left: [] }),
    ],
    [
      'in a proof',
      /^Job J-1, operation 10, proof, tool 2: /,
      (s) => Object.assign(s.jobs[0]!.route[0]!, { proof: { tools: ['EM10', 'EM99'] } }),
    ],
  ])('is refused %s', (_, place, change) => {
    const fault = faultWith('unknown-tool', change);
    expect(fault.level).toBe('error');
    expect(fault.say).toMatch(place);
    expect(fault.say).toMatch(/there is no tool EM99; add it, or take it out of the (operation|magazine|proof)\.$/);
  });

  it('and a machine nobody listed among those a cause stops at once are refused alike', () => {
    const fault = faultWith('unknown-machine', (s) =>
      Object.assign(s, { night: { shared: [{ name: 'Coolant', chance: 0.01, machines: ['M1', 'M9'] }] } }),
    );
    expect(fault.say).toBe(
      'Night, shared cause Coolant, machine 2: there is no machine M9; add it, or take it out of the cause.',
    );
  });
});

describe('what no tool, check or chance can be', () => {
  it.each<[string, string, (s: Small) => void]>([
    ['a tool life of 0', 'Tool EM10, life: must be at least 1 minute.', tool({ life: 0 })],
    [
      'a block chance of 1',
      'Job J-1, operation 10, odds, block: must be below 1: what always fails cannot be planned.',
      (s) => Object.assign(s.jobs[0]!.route[0]!, { odds: { block: 1 } }),
    ],
    [
      'a loss chance of 1',
      'Job J-1, operation 10, odds, loss: must be below 1: what always fails cannot be planned.',
      (s) => Object.assign(s.jobs[0]!.route[0]!, { odds: { loss: 1 } }),
    ],
    [
      'a check that always fails',
      'Job J-1, operation 10, check Width, chance: must be below 1: what always fails cannot be planned.',
      (s) => Object.assign(s.jobs[0]!.route[0]!, { checks: [{ name: 'Width', chance: 1 }] }),
    ],
    [
      'no minutes between two dressings',
      'Tool EM10, dressing, every: must be at least 1 minute.',
      tool({ dressing: { every: 0, minutes: 3 } }),
    ],
    ['a cut of no minutes', 'Job J-1, operation 10, tool EM10, minutes: must be at least 1 minute.', (s) => use(s, 0)],
  ])('is refused at the door: %s', (_, say, change) => {
    const input = smallShop();
    change(input);
    const parsed = parseShop(input);
    expect(parsed.ok ? [] : parsed.faults.map((fault) => fault.say)).toEqual([say]);
  });
});
