import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { BOUNDS } from '../published/jobshop/instances';
import operatorOptima from '../published/operators/bounds.json';
import { folderOf, instancesIn, type JobShopCommand, jobShopProblems, rowsOf, setOf, shopIn } from './catalogue';
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

describe('a folder named by --data', () => {
  const folder = mkdtempSync(join(tmpdir(), 'nightload-data-'));
  afterAll(() => rmSync(folder, { recursive: true }));

  it('may hold the flexible sets as first published: machines from 1, a mean number of choices in the first line', () => {
    mkdirSync(join(folder, 'instances'));
    cpSync(join(folderOf('flexible'), 'best-known.tsv'), join(folder, 'best-known.tsv'));
    const copies = read('flexible');
    for (const { name } of copies) {
      const text = readFileSync(join(folderOf('flexible'), 'instances', `${name}.txt`), 'utf8');
      writeFileSync(join(folder, 'instances', `${name}.txt`), countedFromOne(text));
    }
    const given = jobShopProblems('flexible', folder);
    expect(given.map(({ name }) => name)).toEqual(copies.map(({ name }) => name));
    for (const [i, problem] of given.entries()) {
      expect(problem.shop(), problem.name).toEqual(shopIn(folderOf('flexible'), copies[i]!));
    }
  });
});

/** One more for every machine, and a third number in the first line. */
function countedFromOne(text: string): string {
  const [first, ...jobs] = text.trim().split(/\r?\n/);
  const shifted = jobs.map((job) => {
    const [operations = 0, ...rest] = job.trim().split(/\s+/).map(Number);
    const out = [operations];
    for (let at = 0; at < rest.length; ) {
      const choices = rest[at++]!;
      out.push(choices);
      for (let c = 0; c < choices; c++, at += 2) out.push(rest[at]! + 1, rest[at + 1]!);
    }
    return out.join(' ');
  });
  return [`${first} 1.5`, ...shifted].join('\n');
}

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
