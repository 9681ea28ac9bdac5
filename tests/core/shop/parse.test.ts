import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { demoShop, type Fault, parsePlan, parseRow, parseShop, type Result } from '../../../core/shop';
import { type Small, smallShop } from './small-shop';

function faultsIn(result: Result<unknown>): readonly Fault[] {
  return result.ok ? [] : result.faults;
}

/** Faults of the small shop after a change that its type need not allow. */
function faultsAfter(change: (shop: Small & Record<string, unknown>) => void): readonly Fault[] {
  const input = smallShop() as Small & Record<string, unknown>;
  change(input);
  return faultsIn(parseShop(input));
}

describe('a file that is no shop file', () => {
  it.each<[string, unknown, string, RegExp]>([
    ['a list', [1, 2], 'no-object', /holds a list.*Choose a shop file/],
    ['a text', 'hello', 'no-object', /holds the text "hello"/],
    ['nothing', null, 'no-object', /holds nothing/],
    ['a record of something else', { orders: [] }, 'no-format', /it has no format/],
    ['another format', { format: 'parts-list', version: 1 }, 'no-format', /its format is "parts-list"/],
    ['a plan', { format: 'nightload-plan', version: 1 }, 'other-kind', /a plan file, not a shop file.*Choose/],
    ['a newer version', { format: 'nightload-shop', version: 2 }, 'other-version', /version 2.*Update this program/],
    ['an older version', { format: 'nightload-shop', version: 0 }, 'other-version', /version 0.*write it again/],
    ['no version', { format: 'nightload-shop' }, 'other-version', /does not say its version.*set version to 1/],
  ])('%s is refused as a whole', (_, input, code, say) => {
    const faults = faultsIn(parseShop(input));
    expect(faults.map((f) => f.code)).toEqual([code]);
    expect(faults[0]?.say).toMatch(say);
  });

  it('a shop given as a plan is refused', () => {
    expect(faultsIn(parsePlan(smallShop()))[0]?.say).toMatch(/a shop file, not a plan file/);
  });
});

describe('a field that is wrong', () => {
  const route = (s: Small) => s.jobs[0]!.route[0]! as Record<string, unknown>;

  it.each<[string, (string | number)[], RegExp, (shop: Small & Record<string, unknown>) => void]>([
    [
      'is missing',
      ['jobs', 0, 'due'],
      /^Job J-1, due: is missing; give a text in quotes\.$/,
      (s) => {
        delete (s.jobs[0] as Partial<Small['jobs'][number]>).due;
      },
    ],
    [
      'is of another kind',
      ['jobs', 0, 'route', 0, 'fixture'],
      /^Job J-1, operation 10, fixture: needs a short name/,
      (s) => {
        route(s).fixture = 4;
      },
    ],
    [
      'is a number out of range',
      ['jobs', 0, 'route', 0, 'machines', 0, 'cycle'],
      /^Job J-1, operation 10, machine M1, cycle: must be at least 1 minute/,
      (s) => {
        route(s).machines = [{ machine: 'M1', cycle: 0 }];
      },
    ],
    [
      'is none of the words allowed',
      ['machines', 0, 'kind'],
      /^Machine M1, kind: must be mill, grind, mill-grind or bench/,
      (s) => {
        s.machines[0]!.kind = 'lathe';
      },
    ],
    [
      'is no time of day',
      ['people', 0, 'breaks', 0, 'to'],
      /^Person Ada, break 1, to: must be a time of day such as 06:00/,
      (s) => {
        s.people[0]!.breaks = [{ from: '09:00', to: '9:30' }];
      },
    ],
    [
      'is no date',
      ['jobs', 0, 'due'],
      /^Job J-1, due: must be a date and time such as/,
      (s) => {
        s.jobs[0]!.due = '31.12.2026';
      },
    ],
    [
      'is an empty list where one entry is needed',
      ['jobs', 0, 'route', 0, 'machines'],
      /^Job J-1, operation 10, machines: has no machine; name at least one/,
      (s) => {
        route(s).machines = [];
      },
    ],
    [
      'is no list',
      ['pallets'],
      /^Pallets: is "?12"?; it must be a list/,
      (s) => {
        (s as Record<string, unknown>).pallets = 12;
      },
    ],
    [
      'is a zone nobody knows',
      ['zone'],
      /^Zone: is no time zone.*Europe\/Berlin/,
      (s) => {
        s.zone = 'Middle-earth';
      },
    ],
    [
      'belongs to an entry without an id, which goes by its number',
      ['jobs', 1, 'id'],
      /^Job 2, id: needs a short name/,
      (s) => {
        s.jobs.push({ ...s.jobs[0]!, id: undefined as unknown as string });
      },
    ],
  ])('%s', (_, at, say, change) => {
    const faults = faultsAfter(change);
    expect(faults).toHaveLength(1);
    expect(faults[0]).toMatchObject({ code: 'bad-field', at, level: 'error' });
    expect(faults[0]?.say).toMatch(say);
  });

  it('is said once, however much is wrong with it', () => {
    const faults = faultsAfter((s) => {
      s.jobs[0]!.id = '';
    });
    expect(faults.map((f) => f.say)).toEqual(['Job 1, id: is empty; give it a short name.']);
  });

  it('does not hide the others', () => {
    const faults = faultsAfter((s) => {
      s.zone = '';
      s.jobs[0]!.quantity = 0.5;
    });
    expect(faults.map((f) => f.at.join('.'))).toEqual(['zone', 'jobs.0.quantity']);
  });
});

describe('a field nobody knows', () => {
  it.each<[string, RegExp, (shop: Small & Record<string, unknown>) => void]>([
    [
      'in an operation',
      /^Job J-1, operation 10: there is no field "fixtur" here; correct/,
      (s) => Object.assign(s.jobs[0]!.route[0]!, { fixtur: 'VISE' }),
    ],
    [
      'in the file itself',
      /^The file: there is no field "machine" here/,
      (s) => {
        s.machine = [];
      },
    ],
  ])('%s is refused rather than lost', (_, say, change) => {
    const faults = faultsAfter(change);
    expect(faults.map((f) => f.code)).toEqual(['unknown-field']);
    expect(faults[0]?.say).toMatch(say);
  });
});

describe('one row of a table', () => {
  it('is taken with what it leaves out filled in', () => {
    expect(parseRow('pallets', { id: 'P-1', fixture: 'VISE' })).toEqual({
      ok: true,
      value: { id: 'P-1', name: '', fixture: 'VISE', machines: [], inUse: true },
    });
  });

  it('is refused with a place that begins at the row', () => {
    const row = { id: 'J-7', due: '2026-12-04T12:00', route: [{ id: '10', machines: [{ machine: 'M1', cycle: -1 }] }] };
    const [fault] = faultsIn(parseRow('jobs', row));
    expect(fault?.at).toEqual(['route', 0, 'machines', 0, 'cycle']);
    expect(fault?.say).toMatch(/^Job J-7, operation 10, machine M1, cycle: /);
  });

  it('is refused with an id that would split the names of its runs', () => {
    expect(faultsIn(parseRow('pallets', { id: 'A/B', fixture: 'VISE' }))[0]?.say).toMatch(/^Pallet A\/B, id: .*"\/"/);
  });
});

describe('hostile input', () => {
  it('is refused, never thrown on, whatever it is', () => {
    fc.assert(
      fc.property(
        fc.anything({ withBigInt: true, withDate: true, withNullPrototype: true, withMap: true }),
        (input) => {
          expect(parseShop(input).ok).toBe(false);
          expect(parsePlan(input).ok).toBe(false);
          expect(parseRow('jobs', input).ok).toBe(false);
        },
      ),
      { seed: 11, numRuns: 500 },
    );
  });

  it('with the right format but any value in any field gives a sentence or a shop', () => {
    const shop = demoShop('2026-11-30');
    const field = fc.constantFrom(...Object.keys(shop).filter((key) => key !== 'format' && key !== 'version'));
    fc.assert(
      fc.property(field, fc.jsonValue(), (key, value) => {
        for (const fault of faultsIn(parseShop({ ...shop, [key]: value }))) {
          expect(fault.say).toMatch(/^[A-Z].*: .*\.$/);
        }
      }),
      { seed: 12, numRuns: 500 },
    );
  });
});
