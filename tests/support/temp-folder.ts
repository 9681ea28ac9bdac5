import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';

/** A folder for one test, gone after it. */
export function tempFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'nightload-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}
