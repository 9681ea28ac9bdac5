import { chromium } from 'playwright-core';
import { expect, it, onTestFinished } from 'vitest';
import { CHROMIUM_FLAGS, chromiumPath, serveProgram } from '../support/program';
import { tempFolder } from '../support/temp-folder';

it('the served program opens by its address, keeps the key out of sight and obeys its own content policy', async () => {
  const program = await serveProgram(tempFolder(), '2026-11-25T08:00');
  onTestFinished(async () => void (await program.stop()));
  const browser = await chromium.launch({ executablePath: chromiumPath(), args: CHROMIUM_FLAGS });
  onTestFinished(() => browser.close());
  const address = new URL(program.said);

  const stranger = await browser.newPage();
  await stranger.goto(address.origin);
  await stranger.getByText('Open the address that the program printed').waitFor();

  const page = await browser.newPage();
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  await page.goto(program.said);
  await page.getByText('Demo shop').first().waitFor();
  expect(page.url()).toBe(`${address.origin}/`);
  expect(await page.evaluate('document.cookie')).toBe('');
  expect(complaints).toEqual([]);
  expect(await program.stop()).toBe(0);
});
