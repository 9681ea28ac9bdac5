import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { readJobShop } from '../../core/exchange';
import { isWanted, type Request } from './arguments';
import { folderOf } from './catalogue';
import { COMPARE_SIZES, type CompareSize, compareCase } from './compare-case';
import { CONTENDERS, type Contender, type Contest, type Entry, jobShopContest, nightContest } from './contest';
import { BadRequest } from './refusal';
import type { Print, Report, SetResult } from './report';
import { distance, mean } from './statistics';
import { type Column, figure, heading, line } from './table';

const JOB_SHOPS = ['ft06', 'ft10', 'la16', 'la29'];

const COLUMNS: readonly Column[] = [
  { title: 'problem', width: 8, align: 'left' },
  { title: 'planned by', width: 10, align: 'left' },
  { title: 'cost', width: 10, align: 'right' },
  { title: '% above', width: 8, align: 'right' },
  { title: 'its bound', width: 10, align: 'right' },
  { title: 's to best', width: 9, align: 'right' },
  { title: 's in all', width: 8, align: 'right' },
  { title: 'ending', width: 7, align: 'left' },
];

/** Costs this near are the same. */
const SAME = 1e-4;

interface Row extends Entry {
  readonly problem: string;
  readonly set: string;
  readonly contender: Contender;
  /** Percent above the best of all contenders. */
  readonly distance: number | null;
}

/** Gives the same problems to our engine, to HiGHS as an integer program and to MiniZinc, for the same seconds each. */
export async function benchCompare({ seconds, seed, only }: Request, print: Print): Promise<Report> {
  const contests = contestsOf(seed).filter(({ name }) => isWanted(only, name));
  if (contests.length === 0) {
    const names = [...COMPARE_SIZES.map(nameOf), ...JOB_SHOPS].join(', ');
    throw new BadRequest(`Nothing to compare on has such a name; there are ${names}.`);
  }
  print(`compare: ${contests.length} problems, ${seconds} s for each contender, seed ${seed}\n`);
  print(heading(COLUMNS));
  const rows: Row[] = [];
  const failures: string[] = [];
  for (const contest of contests) {
    const entries: [Contender, Entry][] = [];
    for (const contender of CONTENDERS) {
      entries.push([contender, await contest.enter[contender](seconds, seed)]);
    }
    const wrong = wrongWith(entries).map((say) => `${contest.name}, ${say}`);
    failures.push(...wrong);
    for (const say of wrong) print(`  ! ${say}`);
    if (wrong.length > 0) continue;
    const found = rowsOf(contest, entries);
    rows.push(...found);
    for (const row of found) print(lineOf(row));
  }
  print('\nNights are named machines/runs. % above: the best of the three.');
  return { rows: rows.map((row) => ({ ...row })), sets: setsOf(rows), failures };
}

function contestsOf(seed: number): Contest[] {
  return [
    ...COMPARE_SIZES.map((size) => nightContest(nameOf(size), compareCase(size, seed))),
    ...JOB_SHOPS.map((name) => {
      const file = join(folderOf('jobshop'), 'instances', `${name}.txt`);
      const jobShop = readJobShop(readFileSync(file, 'utf8'), name);
      if (!jobShop.ok) throw new Error(`${file} cannot be read`);
      return jobShopContest(jobShop.value);
    }),
  ];
}

function nameOf({ machines, runs }: CompareSize): string {
  return `${machines}/${runs}`;
}

/** Illegal plans, and plans that cost less than what somebody has proved. */
function wrongWith(entries: readonly [Contender, Entry][]): string[] {
  const illegal = entries.flatMap(([contender, { breaches }]) => breaches.map((say) => `${contender}: ${say}`));
  const beaten = entries.flatMap(([contender, { cost }]) =>
    entries
      .filter(([, { bound }]) => cost !== null && bound !== null && cost < bound - SAME * (1 + Math.abs(bound)))
      .map(
        ([other, { bound }]) => `${contender}: a cost of ${cost} is below ${bound}, which ${other} says is the least`,
      ),
  );
  return [...illegal, ...beaten];
}

function rowsOf({ name, set }: Contest, entries: readonly [Contender, Entry][]): Row[] {
  const best = Math.min(...entries.flatMap(([, { cost }]) => cost ?? []));
  return entries.map(([contender, entry]) => ({
    ...{ problem: name, set, contender, ...entry },
    distance: entry.cost === null ? null : entry.cost - best < SAME ? 0 : distance(entry.cost, best),
  }));
}

function lineOf(row: Row): string {
  return line(COLUMNS, [
    row.problem,
    row.contender,
    figure(row.cost, 3),
    figure(row.distance, 2),
    figure(row.bound, 3),
    figure(row.secondsToBest, 2),
    figure(row.seconds, 2),
    row.cost === null ? 'no plan' : row.isProved ? 'proved' : 'limit',
  ]);
}

/** A set for each contender; its mean is over the problems it has a plan for. */
function setsOf(rows: readonly Row[]): SetResult[] {
  return [...new Set(rows.map(({ set }) => set))].flatMap((set) =>
    CONTENDERS.map((contender) => {
      const planned = rows.filter((row) => row.set === set && row.contender === contender && row.cost !== null);
      return {
        set: `${set}, ${contender}`,
        instances: planned.length,
        distance: mean(planned.flatMap((row) => row.distance ?? [])),
        reached: planned.filter((row) => row.distance === 0).length,
      };
    }),
  );
}
