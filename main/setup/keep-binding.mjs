// Keeps the compiled sqlite3 binding where prebuild-install looks first, so that the next `npm ci` on this machine
// skips the compile of a minute and more. Where anything about it fails, the next install simply compiles again.
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { inTop } from './files.mjs';
import { runQuietly } from './run.mjs';

const BINDING = 'build/Release/node_sqlite3.node';

export function keepBinding() {
  const folder = inTop('node_modules', 'sqlite3');
  if (!existsSync(join(folder, BINDING))) return;
  const { version, repository } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'));
  const name = `sqlite3-v${version}-napi-v6-${process.platform}-${process.arch}.tar.gz`;
  const base = repository.url.replace(/^git\+/, '').replace(/\.git$/, '');
  const digest = createHash('sha512').update(`${base}/releases/download/v${version}/${name}`).digest('hex').slice(0, 6);
  const cache = join(process.env.npm_config_cache ?? join(homedir(), '.npm'), '_prebuilds');
  const file = join(cache, `${digest}-${name.replace(/[^a-zA-Z0-9.]+/g, '-')}`);
  if (existsSync(file)) return;
  mkdirSync(cache, { recursive: true });
  runQuietly('tar', ['-C', folder, '-czf', file, BINDING]);
}
