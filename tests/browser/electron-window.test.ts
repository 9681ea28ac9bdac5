import { expect, it } from 'vitest';
import { barPixels, figure, openWindow, plan } from './desk';

it('the built Electron entry shows the demo shop through its own preload and ends with its window', async () => {
  const { page, program, complaints } = await openWindow();
  expect(await page.evaluate('Object.keys(window.nightload)')).toEqual(['call', 'on']);
  expect(complaints).toEqual([]);
  await page.close();
  expect(await program.ended).toBe(0);
});

it('the window plans the demo week: progress, the plan and its bars come over its own carrier', async () => {
  const { page, complaints } = await openWindow();
  await plan(page, 1);
  expect(await figure(page, 'Tonight')).toEqual([
    expect.stringMatching(/ h$/),
    expect.stringMatching(/ h loaded, no plan above /),
  ]);
  await expect.poll(async () => (await barPixels(page)).mill).toBeGreaterThan(1000);
  expect(complaints).toEqual([]);
});
