import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import places from './browser-places.json';

/** Runs the built program for tests in a real browser; `npm test` builds it first. */

const top = fileURLToPath(new URL('../..', import.meta.url));

/** The browser found by `npm test`, or one in a usual place. */
export function chromiumPath(): string {
  const found = process.env.NIGHTLOAD_CHROMIUM ?? places.find((place) => existsSync(place));
  if (found === undefined) throw new Error('There is no Chromium; npm test says how to install one.');
  return found;
}

/** Chromium for machines without a screen, also as root, reaching for nothing on the network by itself. */
export const CHROMIUM_FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export interface Program {
  /** What it printed that was waited for. */
  readonly said: string;
  /** Its exit code, once it has ended. */
  readonly ended: Promise<number | null>;
  /** Ends it as Ctrl-C would; its exit code. */
  stop(): Promise<number | null>;
}

/** The program on the loopback address; `said` is the address with its key. `at` stops its clock. */
export function serveProgram(data: string, at: string): Promise<Program> {
  const args = ['out/main/command-line.js', 'serve', '--port', '0', '--data', data, '--at', at];
  return started(spawn(process.execPath, args, { cwd: top }), /http:\S+/);
}

/** The program's Electron entry with its windows in Chromium; join over the debugging port. */
export function windowProgram(data: string, debuggingPort: number): Promise<Program> {
  const args = ['--import', './tests/support/register-fake-electron.mjs', 'out/main/electron.js'];
  const env = {
    ...process.env,
    NIGHTLOAD_DATA: data,
    NIGHTLOAD_CHROMIUM: chromiumPath(),
    FAKE_ELECTRON_CDP_PORT: String(debuggingPort),
  };
  return started(spawn(process.execPath, args, { cwd: top, env }), /\{"window":.*\}/);
}

function started(child: ChildProcess, awaited: RegExp): Promise<Program> {
  const ended = new Promise<number | null>((resolve) => child.on('exit', resolve));
  let printed = '';
  child.stderr?.on('data', (part) => {
    printed += part;
  });
  return new Promise((resolve, reject) => {
    child.stdout?.on('data', (part) => {
      printed += part;
      const said = awaited.exec(printed)?.[0];
      if (said === undefined) return;
      resolve({
        said,
        ended,
        stop: () => {
          child.kill('SIGINT');
          return ended;
        },
      });
    });
    void ended.then((code) => reject(new Error(`The program ended with ${code} before it was ready:\n${printed}`)));
  });
}
