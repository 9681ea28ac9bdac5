// Finds out whether an Electron window can be had here, fetching Electron's binary if it is not there yet.
import { existsSync, readFileSync } from 'node:fs';
import { inTop, textOf, writeStamp } from './files.mjs';
import { runQuietly } from './run.mjs';

const FETCH_MS = 180_000;
const TRY_AGAIN_MS = 24 * 3_600_000;
const folder = inTop('node_modules', 'electron');
const failedAt = inTop('node_modules', '.cache', 'nightload', 'electron-failed');

/** The program that opens the window, or the reason, as half a sentence, why there is none. */
export function electronProgram() {
  if (process.platform === 'linux') {
    if (!process.env.DISPLAY && !process.env.WAYLAND_DISPLAY) return { reason: 'there is no display' };
    // Chromium's sandbox does not run as root, and without it the window would not be safe.
    if (process.getuid() === 0) return { reason: 'a window can’t be opened safely as root' };
  }
  const program = installedProgram();
  if (program !== null) return { program };
  const failed = Number(textOf(failedAt) ?? 0);
  if (Date.now() - failed > TRY_AGAIN_MS) {
    console.error('Fetching Electron, once ...');
    runQuietly(process.execPath, [`${folder}/install.js`], { timeout: FETCH_MS });
    const fetched = installedProgram();
    if (fetched !== null) return { program: fetched };
    writeStamp(failedAt, String(Date.now()));
  }
  return { reason: 'Electron’s binary could not be fetched' };
}

function installedProgram() {
  const path = `${folder}/path.txt`;
  if (!existsSync(path)) return null;
  const program = `${folder}/dist/${readFileSync(path, 'utf8').trim()}`;
  return existsSync(program) ? program : null;
}
