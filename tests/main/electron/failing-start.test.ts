import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, it, vi } from 'vitest';
import { app, errorBoxes, windows } from '../../support/fake-electron';

it('a window that can’t open its shop says why in a box and ends, the file untouched', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'nightload-'));
  writeFileSync(join(folder, 'shop.sqlite'), 'no database at all');
  vi.stubEnv('NIGHTLOAD_DATA', folder);
  const exited = new Promise((resolve) => vi.spyOn(app, 'exit').mockImplementation((code) => resolve(code)));
  await import('../../../main/electron');
  expect(await exited).toBe(1);
  expect(errorBoxes).toMatchObject([{ content: expect.stringMatching(/shop\.sqlite is not a database/) }]);
  expect(windows).toEqual([]);
  expect(readFileSync(join(folder, 'shop.sqlite'), 'utf8')).toBe('no database at all');
  rmSync(folder, { recursive: true });
  vi.unstubAllEnvs();
});
