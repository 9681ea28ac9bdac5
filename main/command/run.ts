import { messageOf, Refusal } from '../refusal';
import { readArguments } from './arguments';
import { check } from './check';
import type { Command } from './command';
import { jobshop } from './jobshop';
import { columns } from './layout';
import { night } from './night';
import { plan } from './plan';
import { schema } from './schema';
import { serve } from './serve';
import { exportShop, importShop } from './stored-shop';
import { BAD_INPUT, DONE, type ExitCode, NO_PLAN, type Terminal } from './terminal';

const COMMANDS: readonly Command[] = [plan, check, night, jobshop, schema, serve, exportShop, importShop];

/** Runs one command line and gives its exit code: 0 done, 1 no legal plan, 2 bad input. Never throws. */
export async function runCommand(args: readonly string[], terminal: Terminal): Promise<ExitCode> {
  const [name, ...rest] = args;
  if (name === undefined || name === 'help' || name === '--help' || name === '-h') {
    return help(rest[0] ?? null, terminal);
  }
  const command = COMMANDS.find((one) => one.name === name);
  if (command === undefined) return unknown(name, terminal);
  if (rest.includes('--help')) return help(name, terminal);
  try {
    return await command.run(readArguments(command, rest), terminal);
  } catch (error) {
    if (error instanceof Refusal) {
      for (const fault of error.faults) terminal.remark(fault.say);
      return BAD_INPUT;
    }
    terminal.remark(`Something went wrong inside the program: ${messageOf(error)}. Nothing was changed.`);
    return NO_PLAN;
  }
}

function help(name: string | null, terminal: Terminal): ExitCode {
  const shown = name === null ? COMMANDS : COMMANDS.filter((command) => command.name === name);
  if (shown.length === 0) return unknown(name ?? '', terminal);
  const lines = shown.flatMap((command) => [
    `  ${command.name} ${command.line}`.trimEnd(),
    ...columns([[command.summary]], 6),
  ]);
  terminal.print(['Usage: npm run --silent nightload -- COMMAND', '', ...lines, '', ...ENDINGS].join('\n'));
  return DONE;
}

const ENDINGS = ['Exit codes: 0 done, 1 no legal plan, 2 bad input. TIME is local, such as 2026-11-27T16:00.'];

function unknown(name: string, terminal: Terminal): ExitCode {
  const known = COMMANDS.map((command) => command.name).join(', ');
  terminal.remark(`There is no command "${name}". There are ${known} and help.`);
  return BAD_INPUT;
}
