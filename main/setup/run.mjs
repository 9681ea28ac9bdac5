// Runs other programs, with what they say on standard error: standard output belongs to the command that was asked for.
import { spawnSync } from 'node:child_process';
import { TOP } from './files.mjs';

/** Runs to the end; true if it went well. `quiet` keeps its words for {@link run}'s caller. */
export function run(program, args, options = {}) {
  const done = spawnSync(program, args, { cwd: TOP, stdio: ['ignore', 2, 2], ...options });
  return done.status === 0;
}

/** Runs to the end without a word; what it said, and whether it went well. */
export function runQuietly(program, args, options = {}) {
  const done = spawnSync(program, args, { cwd: TOP, encoding: 'utf8', ...options });
  return { ok: done.status === 0, said: `${done.stdout ?? ''}${done.stderr ?? ''}` };
}

/** npm itself, however it was started; on Windows it is a script that only a shell can run. */
export function npm(...args) {
  const script = process.env.npm_execpath;
  if (script?.endsWith('.js')) return run(process.execPath, [script, ...args]);
  return run('npm', args, { stdio: ['ignore', 2, 2], shell: process.platform === 'win32' });
}

export function giveUp(say) {
  console.error(say);
  process.exit(1);
}
