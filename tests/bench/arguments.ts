import { availableParallelism } from 'node:os';
import { parseArgs } from 'node:util';
import { MOST_WORKERS } from '../../main/solver';
import { BadRequest } from './refusal';

export const COMMANDS = [
  'jobshop',
  'flexible',
  'operators',
  'servers',
  'attended',
  'nights',
  'simulate',
  'compare',
] as const;
export type CommandName = (typeof COMMANDS)[number];

export interface Request {
  readonly command: CommandName;
  /** Seconds each instance gets. */
  readonly seconds: number;
  readonly seed: number;
  /** Workers that search side by side. */
  readonly workers: number;
  /** Names or patterns with `*`; empty is all. */
  readonly only: readonly string[];
  /** Numbers of operators; used by `operators` alone. */
  readonly operators: readonly number[];
  /** A folder with `best-known.tsv` and `instances/` in place of the copies. */
  readonly data: string | null;
  /** Where to write everything measured. */
  readonly json: string | null;
  /** Whether to append to the history. */
  readonly record: boolean;
}

const USAGE = `Usage: npm run bench -- COMMAND [--seconds 60] [--seed 1] [--workers W] [--only NAME,PATTERN*]
                                [--json FILE] [--record]
  jobshop    classical job shops                       [--data FOLDER]
  flexible   job shops with a choice of machines       [--data FOLDER]
  operators  job shops with few operators              [--data FOLDER] [--operators 4,5,6,7,8]
  servers    one person at machines that run alone     --data FOLDER
  attended   a machine and a person per operation      --data FOLDER
  nights     generated nights, from 4 machines and 60 runs to 50 machines and 2,000 runs
  compare    nights and job shops, beside HiGHS and MiniZinc for the same seconds`;

const OPTIONS = {
  seconds: { type: 'string' },
  seed: { type: 'string' },
  workers: { type: 'string' },
  only: { type: 'string' },
  operators: { type: 'string' },
  data: { type: 'string' },
  json: { type: 'string' },
  record: { type: 'boolean' },
} as const;

const TAKES: Readonly<Record<CommandName, readonly string[]>> = {
  jobshop: ['seconds', 'seed', 'workers', 'only', 'data', 'json', 'record'],
  flexible: ['seconds', 'seed', 'workers', 'only', 'data', 'json', 'record'],
  operators: ['seconds', 'seed', 'workers', 'only', 'operators', 'data', 'json', 'record'],
  servers: ['seconds', 'seed', 'workers', 'only', 'data', 'json', 'record'],
  attended: ['seconds', 'seed', 'workers', 'only', 'data', 'json', 'record'],
  compare: ['seconds', 'seed', 'only', 'json', 'record'],
  nights: ['seconds', 'seed', 'workers', 'only', 'json', 'record'],
  simulate: ['seed', 'only', 'json'],
};

/** Reads what stands after `npm run bench --`; throws a {@link BadRequest} that names what is unknown or missing. */
export function readRequest(args: readonly string[]): Request {
  const { values, tokens } = parseArgs({
    args: [...args],
    options: OPTIONS,
    strict: false,
    allowPositionals: true,
    tokens: true,
  });
  const words = tokens.flatMap((token) => (token.kind === 'positional' ? [token.value] : []));
  const command = COMMANDS.find((name) => name === words[0]);
  if (command === undefined) {
    const found = words[0] === undefined ? 'Nothing to measure was named' : `"${words[0]}" is nothing to measure`;
    throw new BadRequest(`${found}; name one of ${COMMANDS.join(', ')}.\n${USAGE}`);
  }
  for (const token of tokens) if (token.kind === 'option') checkOption(command, token.name, token.value);
  if (words[1] !== undefined) throw new BadRequest(`"${words[1]}" is one word too many after ${command}.\n${USAGE}`);
  const text = (name: keyof typeof OPTIONS): string | null => {
    const value = values[name];
    return typeof value === 'string' ? value : null;
  };
  return {
    command,
    seconds: numberOf('seconds', text('seconds') ?? '60', 0.1, 86_400, false),
    seed: numberOf('seed', text('seed') ?? '1', 0, 0xffff_ffff, true),
    // The solvers compared with search in one thread as well.
    workers: numberOf(
      'workers',
      text('workers') ?? `${command === 'compare' ? 1 : coresUsed()}`,
      1,
      MOST_WORKERS,
      true,
    ),
    only: listOf(text('only') ?? ''),
    operators: listOf(text('operators') ?? '4,5,6,7,8').map((p) => numberOf('operators', p, 1, 1000, true)),
    data: text('data'),
    json: text('json'),
    record: values.record === true,
  };
}

/** One worker for each core. */
function coresUsed(): number {
  return Math.min(MOST_WORKERS, availableParallelism());
}

/** Whether a name is among those asked for: as it stands, or by a pattern in which `*` is anything. */
export function isWanted(only: readonly string[], name: string): boolean {
  return only.length === 0 || only.some((pattern) => matches(pattern, name));
}

function matches(pattern: string, name: string): boolean {
  const literal = pattern.split('*').map((part) => part.replace(/[\\^$.*+?()[\]{}|]/g, '\\$&'));
  return new RegExp(`^${literal.join('.*')}$`).test(name);
}

function checkOption(command: CommandName, name: string, value: string | undefined): void {
  const takes = TAKES[command];
  if (!takes.includes(name)) {
    const known = takes.map((one) => `--${one}`).join(', ');
    throw new BadRequest(`--${name} is no option of ${command}; it knows ${known}.\n${USAGE}`);
  }
  if (name === 'record') {
    if (value !== undefined) throw new BadRequest('--record takes no value.');
  } else if (value === undefined || value === '') {
    throw new BadRequest(`--${name} needs a value after it.`);
  }
}

function numberOf(name: string, text: string, least: number, most: number, whole: boolean): number {
  const value = text.trim() === '' ? Number.NaN : Number(text);
  if (value >= least && value <= most && (!whole || Number.isInteger(value))) return value;
  throw new BadRequest(
    `--${name} "${text}" must be ${whole ? 'a whole number' : 'a number'} from ${least} to ${most}.`,
  );
}

function listOf(text: string): string[] {
  return text
    .split(',')
    .map((part) => part.trim())
    .filter((part) => part !== '');
}
