// What the two commands need of the file system before anything is installed: Node's own modules only.
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The top of the program's folder. */
export const TOP = fileURLToPath(new URL('../..', import.meta.url));

export const inTop = (...parts) => join(TOP, ...parts);

/** The text of a file, or null where there is none. */
export function textOf(file) {
  return existsSync(file) ? readFileSync(file, 'utf8') : null;
}

export function writeStamp(file, text) {
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, text);
}

export function digestOf(file) {
  return createHash('sha256').update(readFileSync(file)).digest('hex');
}

/** When anything at or under `path` last changed, folders (so deletions) included. */
export function newestChange(path) {
  if (!existsSync(path)) return 0;
  const { mtimeMs } = statSync(path);
  if (!statSync(path).isDirectory()) return mtimeMs;
  return readdirSync(path).reduce((newest, name) => Math.max(newest, newestChange(join(path, name))), mtimeMs);
}
