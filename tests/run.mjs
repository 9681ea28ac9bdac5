// npm test: installs what is missing, then format and lint, types, unused code, a build, and every test. Ends with a
// line `N passed, N failed`, in which each of the checks before the tests counts as one.

import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { buildIfStale } from '../main/setup/build.mjs';
import { inTop } from '../main/setup/files.mjs';
import { ensureInstalled } from '../main/setup/install.mjs';
import { keepBinding } from '../main/setup/keep-binding.mjs';
import { runQuietly } from '../main/setup/run.mjs';
import { ensureBrowser } from './support/ensure-browser.mjs';

ensureInstalled();
keepBinding();
const browser = ensureBrowser();

let passed = 0;
let failed = 0;
const count = (name, ok, said = '') => {
  if (ok) passed += 1;
  else failed += 1;
  console.log(`${ok ? 'ok    ' : 'FAILED'} ${name}`);
  if (!ok && said !== '') console.log(said);
};
const tool = (script, ...args) => runQuietly(process.execPath, [inTop('node_modules', script), ...args]);

const CHECKS = {
  'format and lint': () => tool('@biomejs/biome/bin/biome', 'check', '--error-on-warnings'),
  types: () => tool('typescript/bin/tsc', '--noEmit'),
  'nothing unused': () => tool('knip/bin/knip.js'),
  build: buildIfStale,
};
for (const [name, check] of Object.entries(CHECKS)) {
  const { ok, said } = check();
  count(name, ok, said);
}

count('a browser for the browser tests', browser !== null);
const results = inTop('out', 'test-results.json');
rmSync(results, { force: true });
const vitest = spawnSync(
  process.execPath,
  [
    inTop('node_modules/vitest/vitest.mjs'),
    'run',
    '--config=tests/vitest.config.ts',
    '--maxWorkers=2',
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${results}`,
    ...process.argv.slice(2),
  ],
  {
    cwd: inTop(),
    stdio: 'inherit',
    env: { ...process.env, ...(browser === null ? {} : { NIGHTLOAD_CHROMIUM: browser }) },
  },
);
const report = existsSync(results) ? JSON.parse(readFileSync(results, 'utf8')) : null;
if (report === null) count('the test runner', false, 'It ended without a report; the lines above say why.');
else {
  passed += report.numPassedTests;
  failed += report.numFailedTests;
  // A file that fails before its first test, or an error outside any test, fails no test of its own.
  const brokenFiles = report.testResults.filter(
    (file) => file.status === 'failed' && file.assertionResults.length === 0,
  );
  failed += brokenFiles.length;
  if (vitest.status !== 0 && report.numFailedTests + brokenFiles.length === 0) failed += 1;
}
console.log(`${passed} passed, ${failed} failed`);
process.exitCode = failed === 0 && passed > 0 ? 0 : 1;
