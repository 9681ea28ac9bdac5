import type { Given, Usage } from './arguments';
import type { ExitCode, Terminal } from './terminal';

/** One command of the command line: what it takes, and what it does. Bad input is thrown as a Refusal. */
export interface Command extends Usage {
  run(given: Given, terminal: Terminal): Promise<ExitCode>;
}
