import { describe, expect, it } from 'vitest';
import { emptyShop, faultsOf } from '../../../core/shop';
import { codesOf, faultWith, MONDAY, type Small } from './small-shop';

const operation = (s: Small) => s.jobs[0]!.route[0]!;
const addMachine = (s: Small, more: Partial<Small['machines'][number]> = {}): void => {
  s.machines.push({ ...s.machines[0]!, id: 'M2', ...more });
  operation(s).machines.push({ machine: 'M2', cycle: 60 });
};

describe('a shop with nothing to plan', () => {
  it('says that it has no machine and no job', () => {
    const faults = faultsOf(emptyShop('Europe/Berlin'), MONDAY);
    expect(faults.map((f) => f.code)).toEqual(['no-machines', 'no-jobs']);
    expect(faults.map((f) => f.say).join()).toMatch(/^Machines: .*add a machine.*,Jobs: .*add a job/);
  });

  it('says that no machine is in use', () => {
    const fault = faultWith('no-machines', (s) => {
      s.machines[0]!.inUse = false;
    });
    expect(fault.say).toMatch(/^Machines: none is in use/);
  });

  it('refuses more runs than can be planned instead of running out of memory', () => {
    const tooMany = (s: Small): void => {
      s.jobs = Array.from({ length: 21 }, (_, j) => ({ ...s.jobs[0]!, id: `J-${j}`, quantity: 1000 }));
    };
    expect(faultWith('too-many-runs', tooMany).say).toMatch(/^Jobs: they call for 21000 runs/);
  });
});

it.each(['1970-01-01T00:00', '2999-12-31T24:00'])('takes a shop planned as far ahead as can be from %s', (at) => {
  const far = (s: Small) => {
    s.horizonDays = 3000;
    s.jobs[0]!.due = at;
  };
  expect(codesOf(far, at)).toEqual([]);
});

describe('machines and people that are not there', () => {
  it('refuses a machine closed in all the days planned, and takes one open for the last minute', () => {
    const closedTo = (to: string) => (s: Small) => {
      addMachine(s, { closures: [{ from: '2026-11-01T00:00', to }] });
    };
    const fault = faultWith('machine-closed', closedTo('2026-12-07T00:00'));
    expect(fault.say).toMatch(/^Machine M2: .*7 days.*open it, or set it out of use/);
    expect(fault.level).toBe('error');
    expect(codesOf(closedTo('2026-12-06T23:59'))).not.toContain('machine-closed');
  });

  it('says nothing of a closed machine that is not in use', () => {
    const closed = (s: Small): void =>
      addMachine(s, { inUse: false, closures: [{ from: '2026-11-01T00:00', to: '2027-01-01T00:00' }] });
    expect(codesOf(closed)).toEqual([]);
  });

  it('warns of a cell without a machine', () => {
    const fault = faultWith('empty-cell', (s) => s.cells.push({ id: 'C', places: 3 }));
    expect(fault).toMatchObject({ level: 'warning', at: ['cells', 0] });
    expect(fault.say).toMatch(/^Cell C: /);
  });

  it('warns of a person who never comes', () => {
    const fault = faultWith('person-absent', (s) => s.people.push({ ...s.people[0]!, id: 'Ben', hours: [] }));
    expect(fault.level).toBe('warning');
    expect(fault.say).toMatch(/^Person Ben, hours: /);
  });
});

describe('dates of a job', () => {
  it('refuses a due time a minute past and takes one that is now', () => {
    const due = (time: string) => (s: Small) => {
      s.jobs[0]!.due = `2026-11-30T${time}`;
    };
    const fault = faultWith('due-past', due('05:59'));
    expect(fault.say).toMatch(/^Job J-1, due: 2026-11-30 05:59 is past; .*promised.*overdue/);
    expect(fault.level).toBe('error');
    expect(codesOf(due('06:00'))).toEqual([]);
  });

  it('takes a past due time of a job said to be overdue, or done', () => {
    const past = (s: Small) => {
      s.jobs[0]!.due = '2026-11-01T12:00';
    };
    const overdue = (s: Small) => {
      past(s);
      s.jobs[0]!.overdue = true;
    };
    expect(codesOf(overdue)).toEqual([]);
    const done = (s: Small) => {
      past(s);
      s.floor = [1, 2].map((n) => ({ run: `J-1/10/${n}`, state: 'done' }));
    };
    expect(codesOf(done)).toEqual([]);
  });

  it('warns of a release after the due time', () => {
    const fault = faultWith('release-after-due', (s) => {
      s.jobs[0]!.release = '2026-12-04T12:01';
    });
    expect(fault).toMatchObject({ level: 'warning', at: ['jobs', 0, 'release'] });
    expect(fault.say).toMatch(/^Job J-1, release: /);
  });
});

describe('an operation no machine can take', () => {
  it.each<[string, string, RegExp, (shop: Small) => void]>([
    [
      'its only machine is not in use',
      'not-in-use',
      /M1 is not in use.*set M1 in use/,
      (s) => {
        s.machines[0]!.inUse = false;
      },
    ],
    [
      'no pallet of its fixture fits',
      'no-pallet-fits',
      /no pallet with fixture VISE fits M1.*add a pallet/,
      (s) => {
        addMachine(s);
        operation(s).machines = [{ machine: 'M1', cycle: 60 }];
        s.pallets = [{ id: 'P1', fixture: 'VISE', machines: ['M2'] }];
      },
    ],
    [
      'it is longer than the days planned',
      'longer-than-horizon',
      /it takes 166 h 45 min, longer than the 7 days.*shorten/,
      (s) => {
        operation(s).machines = [{ machine: 'M1', cycle: 166 * 60 + 30 }];
      },
    ],
    [
      'it is longer than its machine is ever open',
      'longer-than-open',
      /it cuts 1 h and M1 is never open longer than 59 min.*longer hours/,
      (s) => s.machines[0]!.hours.push({ days: ['tue'], from: '06:00', to: '06:59' }),
    ],
    [
      'nobody has the skill',
      'nobody-able',
      /loading on M1 needs skill "milling" and nobody has it/,
      (s) => {
        s.people[0]!.skills = ['grinding'];
      },
    ],
    [
      'there is nobody at all',
      'nobody-able',
      /loading on M1 needs/,
      (s) => {
        s.people = [];
      },
    ],
    [
      'those with the skill never come',
      'nobody-there',
      /needs Ada, never there/,
      (s) => {
        s.people[0]!.hours = [];
      },
    ],
    [
      'loading takes longer than anybody has without a break',
      'hands-too-long',
      /loading on M1 takes 4 h 31 min and Ada never has more than 4 h 30 min/,
      (s) => {
        operation(s).load = 271;
      },
    ],
    [
      'bench work takes longer than anybody has without a break',
      'hands-too-long',
      /bench work on M1 takes 4 h 31 min/,
      (s) => {
        s.machines[0]!.kind = 'bench';
        operation(s).machines = [{ machine: 'M1', cycle: 256 }];
      },
    ],
    [
      'the first-piece check takes longer than anybody has without a break',
      'hands-too-long',
      /the first-piece check on M1 takes 4 h 31 min/,
      (s) => {
        operation(s).firstPiece = { after: 10, minutes: 271 };
      },
    ],
    [
      'its machines are blocked for different reasons',
      'no-machine-can',
      /M1 is not in use; no pallet with fixture VISE fits M2/,
      (s) => {
        addMachine(s);
        s.machines[0]!.inUse = false;
        s.pallets = [{ id: 'P1', fixture: 'VISE', machines: ['M1'] }];
      },
    ],
  ])('because %s', (_, code, say, change) => {
    const fault = faultWith(code, change);
    expect(fault.say).toMatch(/^Job J-1, operation 10: no machine can take it: /);
    expect(fault.say).toMatch(say);
    expect(fault).toMatchObject({ level: 'error', at: ['jobs', 0, 'route', 0] });
  });

  it.each<[string, (shop: Small) => void]>([
    ['as long as the machine is open', (s) => s.machines[0]!.hours.push({ days: ['tue'], from: '06:00', to: '07:00' })],
    [
      'as long as the days planned',
      (s) => {
        // From Monday 06:00 to the midnight that ends Sunday are 162 hours, 15 minutes of them for hands.
        operation(s).machines = [{ machine: 'M1', cycle: 162 * 60 - 15 }];
      },
    ],
    [
      'with hand work as long as the longest time without a break',
      (s) => {
        operation(s).load = 270;
      },
    ],
  ])('is not one that is just %s', (_, change) => {
    expect(codesOf(change)).toEqual([]);
  });

  it('is only a warning while another machine can', () => {
    const fault = faultWith('no-pallet-fits', (s) => {
      addMachine(s);
      s.pallets = [{ id: 'P1', fixture: 'VISE', machines: ['M1'] }];
    });
    expect(fault).toMatchObject({ level: 'warning', at: ['jobs', 0, 'route', 0, 'machines', 1] });
    expect(fault.say).toMatch(/^Job J-1, operation 10, machine M2: it is never used here/);
  });

  it('needs nobody where nothing is done by hand', () => {
    const alone = (s: Small): void => {
      s.people = [];
      Object.assign(operation(s), { load: 0, unload: 0 });
    };
    expect(codesOf(alone)).toEqual([]);
  });

  it('is not looked for once all its runs are done', () => {
    const done = (s: Small): void => {
      addMachine(s);
      operation(s).machines = [{ machine: 'M1', cycle: 60 }];
      s.machines[0]!.inUse = false;
      s.floor = [1, 2].map((n) => ({ run: `J-1/10/${n}`, state: 'done' }));
    };
    expect(codesOf(done)).toEqual([]);
  });
});
