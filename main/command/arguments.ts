import { parseArgs } from 'node:util';
import { isLocalTime } from '../../core/time';
import { refusal } from '../refusal';

/** What a command may be given. */
export interface Usage {
  readonly name: string;
  /** After the name, as help shows it: `SHOP.json|demo [--at TIME]`. */
  readonly line: string;
  readonly summary: string;
  /** Names of the words it needs, in order. */
  readonly words: readonly string[];
  readonly options: Readonly<Record<string, { readonly type: 'string' | 'boolean' }>>;
}

/** The words and options a command was given, each read with a refusal that says what it must be. */
export interface Given {
  word(index: number): string;
  flag(name: string): boolean;
  text(name: string): string | null;
  /** A local time `YYYY-MM-DDTHH:MM`. */
  time(name: string): string | null;
  number(name: string, usual: number, least: number, most: number): number;
  whole(name: string, usual: number, least: number, most: number): number;
}

/** Reads a command's arguments by its usage; throws a Refusal naming what is unknown, missing or too much. */
export function readArguments(usage: Usage, args: readonly string[]): Given {
  const { values, tokens } = parseArgs({
    args: [...args],
    options: usage.options,
    strict: false,
    allowPositionals: true,
    tokens: true,
  });
  const words: string[] = [];
  for (const token of tokens) {
    if (token.kind === 'positional') words.push(token.value);
    if (token.kind === 'option') checkOption(usage, token.name, token.rawName, token.value);
  }
  if (words.length < usage.words.length) {
    throw wrong(usage, `${usage.name} needs ${usage.words[words.length] ?? 'more'} after it.`);
  }
  const extra = words[usage.words.length];
  if (extra !== undefined) throw wrong(usage, `"${extra}" is one word too many for ${usage.name}.`);
  const text = (name: string): string | null => {
    const value = values[name];
    return typeof value === 'string' ? value : null;
  };
  return {
    word: (index) => words[index] ?? '',
    flag: (name) => values[name] === true,
    text,
    time(name) {
      const value = text(name);
      if (value === null || isLocalTime(value)) return value;
      throw wrong(usage, `--${name} "${value}" is no date and time; write it as 2026-11-27T16:00.`);
    },
    number: (name, usual, least, most) => numberIn(usage, name, text(name), usual, least, most, false),
    whole: (name, usual, least, most) => numberIn(usage, name, text(name), usual, least, most, true),
  };
}

function checkOption(usage: Usage, name: string, rawName: string, value: string | undefined): void {
  const option = usage.options[name];
  if (option === undefined) {
    const known = Object.keys(usage.options).map((known) => `--${known}`);
    const remedy = known.length === 0 ? 'It takes no options.' : `It knows ${known.join(', ')}.`;
    throw wrong(usage, `${rawName} is no option of ${usage.name}. ${remedy}`);
  }
  if (option.type === 'string' && value === undefined) throw wrong(usage, `${rawName} needs a value after it.`);
  if (option.type === 'boolean' && value !== undefined) throw wrong(usage, `${rawName} takes no value.`);
}

function numberIn(
  usage: Usage,
  name: string,
  text: string | null,
  usual: number,
  least: number,
  most: number,
  whole: boolean,
): number {
  if (text === null) return usual;
  const value = text.trim() === '' ? Number.NaN : Number(text);
  if (value >= least && value <= most && (!whole || Number.isInteger(value))) return value;
  const kind = whole ? 'a whole number' : 'a number';
  throw wrong(usage, `--${name} "${text}" must be ${kind} from ${least} to ${most}.`);
}

function wrong(usage: Usage, say: string): Error {
  return refusal('bad-argument', `${say}\nUsage: nightload ${usage.name} ${usage.line}`.trim());
}
