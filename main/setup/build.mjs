// Builds the program into out/ when its sources are newer than what is there.
import { existsSync } from 'node:fs';
import { inTop, newestChange, textOf, writeStamp } from './files.mjs';
import { giveUp, runQuietly } from './run.mjs';

const SOURCES = ['core', 'main', 'renderer', 'package-lock.json', 'electron.vite.config.ts'];
const stamp = inTop('out', '.built');

/** Whether out/ holds the program as its sources are now. */
export function isBuilt() {
  return existsSync(inTop('out/main/command-line.js')) && textOf(stamp) === newestSource();
}

/** Builds if need be; whether out/ is now up to date, and what the build said if it is not. */
export function buildIfStale() {
  const changed = newestSource();
  if (textOf(stamp) === changed) return { ok: true, said: '' };
  console.error('Building ...');
  const built = runQuietly(process.execPath, [inTop('node_modules/electron-vite/bin/electron-vite.js'), 'build']);
  if (built.ok) writeStamp(stamp, changed);
  return built;
}

export function ensureBuilt() {
  const { ok, said } = buildIfStale();
  if (!ok) giveUp(`${said}\nBuilding failed; the lines above say where.`);
}

function newestSource() {
  return String(Math.max(...SOURCES.map((source) => newestChange(inTop(source)))));
}
