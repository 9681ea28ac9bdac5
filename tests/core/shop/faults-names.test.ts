import { describe, expect, it } from 'vitest';
import { faultsOf } from '../../../core/shop';
import { codesOf, faultWith, MONDAY, type Small, shopWith } from './small-shop';

it('finds nothing wrong with a shop that is right', () => {
  expect(
    faultsOf(
      shopWith(() => {}),
      MONDAY,
    ),
  ).toEqual([]);
});

describe('names given twice', () => {
  it.each<[string, string, RegExp, (shop: Small) => void]>([
    ['a shift', 'duplicate-id', /^Shift Day: .*rename/, (s) => s.shifts.push({ ...s.shifts[0], days: ['fri'] })],
    ['a person', 'duplicate-id', /^Person Ada: /, (s) => s.people.push(s.people[0]!)],
    ['a machine', 'duplicate-id', /^Machine M1: /, (s) => s.machines.push(s.machines[0]!)],
    ['a pallet', 'duplicate-id', /^Pallet P1: /, (s) => s.pallets.push(s.pallets[0]!)],
    ['a tool', 'duplicate-id', /^Tool EM10: /, (s) => s.tools.push(s.tools[0]!)],
    ['a job', 'duplicate-id', /^Job J-1: /, (s) => s.jobs.push(s.jobs[0]!)],
    [
      'a cell',
      'duplicate-id',
      /^Cell C: /,
      (s) => {
        s.cells.push({ id: 'C', places: 2 }, { id: 'C', places: 2 });
        s.machines[0]!.cell = 'C';
      },
    ],
    [
      'an operation of a route',
      'duplicate-operation',
      /^Job J-1, operation 10: .*another id/,
      (s) => s.jobs[0]!.route.push(s.jobs[0]!.route[0]!),
    ],
    [
      'a machine of an operation',
      'duplicate-machine',
      /^Job J-1, operation 10, machine M1: /,
      (s) => s.jobs[0]!.route[0]!.machines.push({ machine: 'M1', cycle: 70 }),
    ],
    [
      'a walk, in either direction',
      'duplicate-walk',
      /^Walking, walk 2: /,
      (s) => {
        s.machines.push({ ...s.machines[0]!, id: 'M2' });
        s.walking.between.push({ from: 'M1', to: 'M2', minutes: 2 }, { from: 'M2', to: 'M1', minutes: 3 });
      },
    ],
  ])('%s', (_, code, say, change) => {
    const fault = faultWith(code, change);
    expect(fault.say).toMatch(say);
    expect(fault.level).toBe('error');
  });

  it('are said of the second row', () => {
    const shop = shopWith((s) => s.machines.push(s.machines[0]!));
    expect(faultsOf(shop, MONDAY).find((f) => f.code === 'duplicate-id')?.at).toEqual(['machines', 1]);
  });
});

describe('names that name nothing', () => {
  it.each<[string, string, RegExp, (shop: Small) => void]>([
    [
      'a machine of an operation',
      'unknown-machine',
      /^Job J-1, operation 10, machine M9, machine: there is no machine M9; add it/,
      (s) => s.jobs[0]!.route[0]!.machines.push({ machine: 'M9', cycle: 60 }),
    ],
    ['a machine of a pallet', 'unknown-machine', /^Pallet P1, machine.*M9/, (s) => s.pallets[0]!.machines.push('M9')],
    [
      'a cell',
      'unknown-cell',
      /^Machine M1, cell: there is no cell C/,
      (s) => {
        s.machines[0]!.cell = 'C';
      },
    ],
    [
      'a tool of an operation',
      'unknown-tool',
      /^Job J-1, operation 10, tool XX/,
      (s) => s.jobs[0]!.route[0]!.tools.push({ tool: 'XX', minutes: 5 }),
    ],
    [
      'a tool in a magazine',
      'unknown-tool',
      /^Machine M1, magazine tool XX/,
      (s) => s.machines[0]!.magazine.push({ tool: 'XX', left: [] }),
    ],
    [
      'a fixture',
      'unknown-fixture',
      /^Job J-1, operation 10, fixture: no pallet carries fixture CHUCK .*VISE.*add a pallet/,
      (s) => {
        s.jobs[0]!.route[0]!.fixture = 'CHUCK';
      },
    ],
    [
      'a fixture in a shop without pallets',
      'unknown-fixture',
      /^Job J-1, operation 10, fixture: .*no pallets at all/,
      (s) => {
        s.pallets = [];
      },
    ],
    [
      'a run on the floor',
      'unknown-run',
      /^Floor entry J-1\/10\/3, run: there is no run/,
      (s) => s.floor.push({ run: 'J-1/10/3', state: 'done' }),
    ],
    [
      'a machine on the floor',
      'unknown-machine',
      /^Floor entry J-1\/10\/1, machine: /,
      (s) => s.floor.push({ run: 'J-1/10/1', state: 'loaded', machine: 'M9', pallet: 'P1' }),
    ],
    [
      'a pallet on the floor',
      'unknown-pallet',
      /^Floor entry J-1\/10\/1, pallet: /,
      (s) => s.floor.push({ run: 'J-1/10/1', state: 'loaded', machine: 'M1', pallet: 'P9' }),
    ],
  ])('%s', (_, code, say, change) => {
    const fault = faultWith(code, change);
    expect(fault.say).toMatch(say);
    expect(fault.level).toBe('error');
  });

  it('a spot is only a warning, at the end that is wrong', () => {
    const fault = faultWith('unknown-spot', (s) => s.walking.between.push({ from: 'M1', to: 'attic', minutes: 3 }));
    expect(fault).toMatchObject({ level: 'warning', at: ['walking', 'between', 0, 'to'] });
    expect(fault.say).toContain('attic');
  });

  it('knows a cell without a spot of its own by its id', () => {
    const codes = codesOf((s) => {
      s.cells.push({ id: 'C', places: 4 });
      s.machines[0]!.cell = 'C';
      s.walking.between.push({ from: 'C', to: 'M1', minutes: 3 });
    });
    expect(codes).toEqual([]);
  });
});
