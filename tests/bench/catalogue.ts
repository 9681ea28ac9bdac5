import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { jobShopAsShop, readJobShop } from '../../core/exchange';
import type { Shop } from '../../core/shop';
import type { CommandName } from './arguments';
import { BadRequest } from './refusal';

/** Commands whose instances are in the text format of job shops. */
export type JobShopCommand = Extract<CommandName, 'jobshop' | 'flexible' | 'operators'>;

/**
 * What stands behind a published bound; the tables say at their heads what each word means. `trivial`: the lower bound
 * is one that anyone can compute, so it needs nobody's word.
 */
const EVIDENCE = ['literature', 'trivial', 'registry', 'proved', 'table', 'open'] as const;
export type Evidence = (typeof EVIDENCE)[number];

/** A published instance with its bounds: no plan is shorter than `lower`, and one of `upper` is known. */
export interface Instance {
  /** The file it is read from, without its ending. */
  readonly name: string;
  /** 0: nobody is needed. */
  readonly operators: number;
  readonly lower: number;
  readonly upper: number;
  readonly evidence: Evidence;
}

/** An instance ready to be planned. */
export interface Problem extends Instance {
  /** The set its mean is taken over. */
  readonly set: string;
  readonly shop: () => Shop;
}

const TABLES: Readonly<Record<JobShopCommand, { readonly folder: string; readonly table: string }>> = {
  jobshop: { folder: 'jobshop', table: 'best-known.tsv' },
  flexible: { folder: 'flexible', table: 'best-known.tsv' },
  operators: { folder: 'jobshop', table: 'best-known-operators.tsv' },
};

/** The folder of a command's copies. */
export function folderOf(command: JobShopCommand): string {
  return fileURLToPath(new URL(`../published/${TABLES[command].folder}`, import.meta.url));
}

/** The instances of a command in a folder, in the order of its table; throws a {@link BadRequest} for a bad table. */
export function instancesIn(folder: string, command: JobShopCommand): Instance[] {
  const file = join(folder, TABLES[command].table);
  if (!existsSync(file)) throw new BadRequest(`There is no table of bounds ${file}; name a folder that has one.`);
  return rowsOf(readFileSync(file, 'utf8'), file, command === 'operators');
}

/** The instances of a command in a folder, or in that of the copies, ready to be planned. */
export function jobShopProblems(command: JobShopCommand, data: string | null): Problem[] {
  const folder = data ?? folderOf(command);
  return instancesIn(folder, command).map((instance) => ({
    ...instance,
    set: setOf(instance),
    shop: () => shopIn(folder, instance),
  }));
}

/** Tab-separated: name, number of operators where asked for, lower, upper, evidence; comments after `#`. */
export function rowsOf(text: string, file: string, withOperators: boolean): Instance[] {
  return text.split(/\r?\n/).flatMap((row, index) => {
    if (row.trim() === '' || row.startsWith('#')) return [];
    const cells = row.split('\t');
    const [name = '', operators, lower, upper, evidence] = withOperators ? cells : [cells[0], '0', ...cells.slice(1)];
    const known = EVIDENCE.find((one) => one === evidence);
    const [p, low, high] = [operators, lower, upper].map(Number);
    if (name === '' || known === undefined || !isCount(p) || !isCount(low) || !isCount(high) || low > high) {
      throw new BadRequest(`${file}, line ${index + 1} is no row of bounds; correct it.`);
    }
    return [{ name, operators: p, lower: low, upper: high, evidence: known }];
  });
}

/** An instance as a shop without nights. */
export function shopIn(folder: string, { name, operators }: Instance): Shop {
  const file = join(folder, 'instances', `${name}.txt`);
  if (!existsSync(file)) throw new BadRequest(`There is no instance ${file}; name a folder that has it.`);
  const jobShop = readJobShop(readFileSync(file, 'utf8'), name);
  if (!jobShop.ok) throw new BadRequest(`${file}: ${jobShop.faults[0]?.say ?? 'it cannot be read.'}`);
  return jobShopAsShop(jobShop.value, operators);
}

/** The set an instance's mean is taken over. */
export function setOf({ name, operators }: Instance): string {
  const set = setOfName(name);
  return operators > 0 ? `${set}, ${operators} operators` : set;
}

function setOfName(name: string): string {
  const [, letters = name, number = ''] = /^(.*?)(\d+)$/.exec(name) ?? [];
  if (letters === 'ta') return Number(number) <= 50 ? 'ta01-50' : 'ta51-80';
  if (letters === 'brandimarte-mk') return Number(number) <= 10 ? 'mk01-10' : 'mk11-15';
  return letters.replace(/-(la|k)$/, '');
}

function isCount(value: number | undefined): value is number {
  return value !== undefined && Number.isInteger(value) && value >= 0;
}
