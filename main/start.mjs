// npm start: installs what is missing, builds, and opens the program; in a window where one can be had, else served to
// a browser on this computer. `--data DIR`, `--at TIME` and `--port N` are handed on.
import { spawn } from 'node:child_process';
import { pathToFileURL } from 'node:url';
import { ensureBuilt } from './setup/build.mjs';
import { electronProgram } from './setup/electron.mjs';
import { inTop } from './setup/files.mjs';
import { ensureInstalled } from './setup/install.mjs';

/** A window that closes sooner, and not by itself, never opened. */
const OPENED_AFTER_MS = 10_000;

ensureInstalled();
ensureBuilt();
const { program, reason } = electronProgram();
if (program === undefined) await serve(reason);
else if (!(await openWindow(program))) await serve('the window did not open');

function openWindow(program) {
  const began = Date.now();
  const child = spawn(program, [inTop('out/main/electron.js')], { stdio: 'inherit', env: environment() });
  // Ctrl-C reaches the window too; this process only waits for it to end.
  for (const signal of ['SIGINT', 'SIGTERM']) process.on(signal, () => child.kill(signal));
  return new Promise((resolve) => {
    child.on('error', () => resolve(false));
    child.on('exit', (code, signal) => resolve(code === 0 || signal !== null || Date.now() - began > OPENED_AFTER_MS));
  });
}

async function serve(why) {
  console.error(`No window here: ${why}. Serving the same program to a browser on this computer.`);
  process.argv.splice(2, 0, 'serve', '--open');
  await import(pathToFileURL(inTop('out/main/command-line.js')).href);
}

function environment() {
  const env = { ...process.env };
  for (const [option, name] of [
    ['--data', 'NIGHTLOAD_DATA'],
    ['--at', 'NIGHTLOAD_AT'],
  ]) {
    const at = process.argv.indexOf(option);
    if (at > 0 && process.argv[at + 1] !== undefined) env[name] = process.argv[at + 1];
  }
  return env;
}
