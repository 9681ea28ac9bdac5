// The command line on a fresh clone too: installs what is missing, then runs what is built, which starts soonest, or from
// source where that is newer; `serve` needs the screens built.
import { ensureBuilt, isBuilt } from './setup/build.mjs';
import { ensureInstalled } from './setup/install.mjs';

ensureInstalled();
if (process.argv[2] === 'serve') ensureBuilt();
if (isBuilt()) {
  await import(new URL('../out/main/command-line.js', import.meta.url).href);
} else {
  const { register } = await import('tsx/esm/api');
  register();
  await import('./command-line.ts');
}
