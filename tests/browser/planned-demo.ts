import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { TestProject } from 'vitest/node';
import { planInto } from '../support/planned-folder';
import { AT } from './moment';

declare module 'vitest' {
  interface ProvidedContext {
    /** A data folder in which the demo week is planned, to be copied. */
    readonly plannedDemo: string;
  }
}

const SECONDS = 2;

/** Plans the demo week once for all tests in the browser that begin from a plan. */
export default async function planDemo(project: TestProject): Promise<() => void> {
  const folder = mkdtempSync(join(tmpdir(), 'nightload-planned-'));
  await planInto(folder, { at: AT, shop: null, seconds: SECONDS });
  project.provide('plannedDemo', folder);
  return () => rmSync(folder, { recursive: true, force: true });
}
