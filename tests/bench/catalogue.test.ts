import { describe, expect, it } from 'vitest';
import { BOUNDS } from '../published/jobshop/instances';
import operatorOptima from '../published/operators/bounds.json';
import { folderOf, instancesIn, type JobShopCommand, rowsOf, setOf, shopIn } from './catalogue';
import { BadRequest } from './refusal';

const read = (command: JobShopCommand) => instancesIn(folderOf(command), command);

describe('the published instances', () => {
  it.each([
    ['jobshop', 162],
    ['flexible', 79],
    ['operators', 985],
  ] as const)('of %s have %i rows of bounds', (command, count) => {
    expect(read(command)).toHaveLength(count);
  });

  it.each(['jobshop', 'flexible'] as const)('of %s can all be read, and no job is longer than the bound', (command) => {
    for (const instance of read(command)) {
      const { jobs } = shopIn(folderOf(command), instance);
      const lengths = jobs.map(({ route }) =>
        route.reduce((sum, { machines }) => sum + Math.min(...machines.map(({ cycle }) => cycle)), 0),
      );
      expect(Math.max(...lengths), instance.name).toBeLessThanOrEqual(instance.lower);
    }
  });

  it('with operators are instances that are there, never shorter than without', () => {
    const alone = new Map(read('jobshop').map((instance) => [instance.name, instance]));
    for (const { name, operators, upper } of read('operators')) {
      expect(upper, `${name} with ${operators}`).toBeGreaterThanOrEqual(alone.get(name)!.lower);
    }
  });

  it('have the bounds that the tests are held to', () => {
    const all = [...read('jobshop'), ...read('flexible')];
    for (const { name, lower, upper } of BOUNDS) {
      expect(all.find((instance) => instance.name === name)).toMatchObject({ lower, upper });
    }
    for (const { name, operators, optimum } of [...operatorOptima.reached, ...operatorOptima.near]) {
      const row = read('operators').find((one) => one.name === name && one.operators === operators);
      expect(row, `${name} with ${operators}`).toMatchObject({ lower: optimum, upper: optimum });
    }
  });

  it('are closed where refereed papers vouch for them', () => {
    const vouched = read('jobshop').filter(({ evidence }) => evidence === 'literature');
    expect(vouched).toHaveLength(130);
    expect(vouched.filter(({ lower, upper }) => lower !== upper)).toEqual([]);
  });

  it('fall into the sets that means are taken over', () => {
    expect([...new Set(read('jobshop').map(setOf))].sort()).toEqual([
      ...['abz', 'ft', 'la', 'orb', 'swv', 'ta01-50', 'ta51-80', 'yn'],
    ]);
    expect([...new Set(read('flexible').map(setOf))].sort()).toEqual([
      ...['hurink-edata', 'hurink-rdata', 'hurink-vdata', 'kacem', 'mk01-10', 'mk11-15'],
    ]);
    const row = { name: 'la07', operators: 4, lower: 1, upper: 1, evidence: 'proved' } as const;
    expect(setOf(row)).toBe('la, 4 operators');
  });
});

describe('a table of bounds', () => {
  it.each(['ft06\t55', 'ft06\t56\t55\tliterature', 'ft06\t55\t55\thearsay', 'ft06\tmany\t55\topen'])(
    'is refused with the line that is wrong: %j',
    (row) => {
      expect(() => rowsOf(`# bounds\n${row}\n`, 'bounds.tsv', false)).toThrow('bounds.tsv, line 2');
    },
  );

  it('that is not there is said to be missing, and so is an instance', () => {
    expect(() => instancesIn('/nowhere', 'jobshop')).toThrow(BadRequest);
    const gone = { name: 'ft99', operators: 0, lower: 1, upper: 1, evidence: 'open' } as const;
    expect(() => shopIn(folderOf('jobshop'), gone)).toThrow('There is no instance');
  });
});
