export { runCommand } from './run';
export type { Terminal } from './terminal';
