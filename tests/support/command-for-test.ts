import { runCommand } from '../../main/command';
import { workerBeside } from '../../main/solver';

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

export interface Running {
  readonly ended: Promise<Ran>;
  out(): string;
  /** As Ctrl-C would. */
  stop(): void;
}

/** Starts the command line in this process. */
export function startCommand(args: readonly string[], screens = '/no/screens'): Running {
  const out: string[] = [];
  const err: string[] = [];
  let stop = (): void => undefined;
  const code = runCommand(args, {
    print: (text) => void out.push(text),
    remark: (text) => void err.push(text),
    onStop: (told) => {
      stop = told;
    },
    worker: workerBeside(new URL('../../main/command-line.ts', import.meta.url).href),
    screens,
  });
  return {
    ended: code.then((exit) => ({ code: exit, out: out.join('\n'), err: err.join('\n') })),
    out: () => out.join('\n'),
    stop: () => stop(),
  };
}

export function command(...args: string[]): Promise<Ran> {
  return startCommand(args).ended;
}
