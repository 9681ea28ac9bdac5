// Installs what is missing, and only then: the first start of a fresh clone, or after the lock file has changed.
import { existsSync, statSync } from 'node:fs';
import { digestOf, inTop, textOf, writeStamp } from './files.mjs';
import { keepBinding } from './keep-binding.mjs';
import { giveUp, npm } from './run.mjs';

const LEAST_NODE = [20, 19];
const lock = inTop('package-lock.json');
/** npm writes it at the end of an install. */
const installed = inTop('node_modules', '.package-lock.json');
const stamp = inTop('node_modules', '.cache', 'nightload', 'installed');

export function ensureInstalled() {
  refuseOldNode();
  if (isInstalled()) return;
  console.error('Installing what is missing (the first time a few minutes) ...');
  if (!npm('ci', '--include=dev', '--no-audit', '--no-fund')) {
    giveUp('Installing failed; the lines above say why. Check the connection to the npm registry and try again.');
  }
  writeStamp(stamp, digestOf(lock));
  keepBinding();
}

function isInstalled() {
  if (!existsSync(installed)) return false;
  // By content where it is known: a checkout gives the lock file a new date without changing it.
  const known = textOf(stamp);
  if (known !== null) return known === digestOf(lock);
  if (statSync(lock).mtimeMs > statSync(installed).mtimeMs) return false;
  writeStamp(stamp, digestOf(lock));
  return true;
}

function refuseOldNode() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  const [leastMajor, leastMinor] = LEAST_NODE;
  if (major > leastMajor || (major === leastMajor && minor >= leastMinor)) return;
  giveUp(
    `This is Node ${process.versions.node}; Nightload needs ${LEAST_NODE.join('.')} or newer. Install a newer Node.`,
  );
}
