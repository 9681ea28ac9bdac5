// Finds a Chromium for the browser tests, or brings one by the system's package manager.
import { existsSync } from 'node:fs';
import { inTop, textOf } from '../../main/setup/files.mjs';
import { run, runQuietly } from '../../main/setup/run.mjs';

const PLACES = JSON.parse(textOf(inTop('tests/support/browser-places.json')));

const MANAGERS = [
  {
    program: 'apt-get',
    steps: [['update'], ['install', '-y', '--no-install-recommends', 'chromium', 'fonts-liberation']],
  },
  { program: 'dnf', steps: [['install', '-y', 'chromium']] },
  { program: 'pacman', steps: [['-Sy', '--noconfirm', 'chromium']] },
  { program: 'brew', steps: [['install', '--cask', 'chromium']], asUser: true },
];

/** The browser's program, or null with a line on what to install. */
export function ensureBrowser() {
  const found = installedBrowser();
  if (found !== null) return found;
  for (const { program, steps, asUser } of MANAGERS) {
    if (!runQuietly(program, ['--version']).ok) continue;
    const before = asUser ? [] : prefix();
    if (before === null) continue;
    console.error(`Installing Chromium for the browser tests with ${program} ...`);
    const [first, ...rest] = [...before, program];
    for (const step of steps)
      run(first, [...rest, ...step], { env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' } });
    const brought = installedBrowser();
    if (brought !== null) return brought;
  }
  console.error('No browser for the browser tests: install Chromium or Chrome (on Debian: apt-get install chromium),');
  console.error('or name one with NIGHTLOAD_CHROMIUM=/path/to/chromium.');
  return null;
}

function installedBrowser() {
  const named = process.env.NIGHTLOAD_CHROMIUM;
  if (named) return existsSync(named) ? named : null;
  return PLACES.find((place) => existsSync(place)) ?? null;
}

/** What lets a command install for the whole system without asking anybody, or null. */
function prefix() {
  if (process.getuid?.() === 0) return [];
  return runQuietly('sudo', ['-n', 'true']).ok ? ['sudo', '-n'] : null;
}
