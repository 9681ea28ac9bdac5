import { createServer } from 'node:net';
import { chromium, type Page } from 'playwright-core';
import { expect, it, onTestFinished } from 'vitest';
import { windowProgram } from '../support/program';
import { tempFolder } from '../support/temp-folder';

function freePort(): Promise<number> {
  return new Promise((resolve) => {
    const probe = createServer().listen(0, '127.0.0.1', () => {
      const address = probe.address();
      probe.close(() => resolve(typeof address === 'object' && address !== null ? address.port : 0));
    });
  });
}

it('the built Electron entry shows the demo shop through its own preload and ends with its window', async () => {
  const port = await freePort();
  const program = await windowProgram(tempFolder(), port);
  onTestFinished(async () => void (await program.stop()));
  const browser = await chromium.connectOverCDP(`http://127.0.0.1:${port}`);
  const page = browser.contexts()[0]?.pages()[0] as Page;
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  await page.reload();
  await page.getByText('Demo shop').first().waitFor();
  expect(await page.evaluate('Object.keys(window.nightload)')).toEqual(['call', 'on']);
  expect(complaints).toEqual([]);
  await page.close();
  expect(await program.ended).toBe(0);
});
