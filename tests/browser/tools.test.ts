import type { Browser, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { goTo, launchBrowser, openDesk, rowOf } from './desk';

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

async function type(field: Locator, text: string): Promise<void> {
  await field.fill(text);
  await field.press('Enter');
}

const PANEL = 'Tools, checks, odds and proof of operation 10';

/** The panel of the first operation of a job, opened. */
async function openOperation(page: Page, job: string): Promise<Locator> {
  await goTo(page, 'Jobs');
  await page.getByRole('button', { name: `Details of ${job}` }).click();
  await page.getByRole('button', { name: PANEL }).click();
  return page.getByRole('region', { name: PANEL });
}

it('a tool, a check and odds that are entered are there again after a reload', async () => {
  const { page, complaints } = await openDesk(browser);
  await goTo(page, 'Tools');
  await type(page.getByLabel('New tool'), 'TR12');
  await type(rowOf(page, 'TR12').getByLabel('Life', { exact: true }), '2:15');
  await type(rowOf(page, 'TR12').getByLabel('Spread of its life, percent'), '20');

  const panel = await openOperation(page, 'J-103');
  // By keyboard: the arrow opens the menu instead of adding the first tool unseen.
  await panel.getByLabel('Add tool').focus();
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('End');
  await page.keyboard.press('Enter');
  await type(panel.getByLabel('Minutes of TR12'), '12');
  await panel.getByRole('button', { name: 'Add check' }).click();
  await type(panel.getByLabel('Check', { exact: true }), 'Bore');
  await type(panel.getByLabel('Chance out of limits, percent'), '30');
  await type(panel.getByLabel('Block odds, percent'), '2.5');
  const planned = panel.getByText(/^planned .*5 of them for repeats, holds for 100 % of runs/);
  await planned.waitFor();
  const followed = await planned.textContent();

  await page.reload();
  await goTo(page, 'Tools');
  const row = rowOf(page, 'TR12');
  expect(await row.getByLabel('Life', { exact: true }).inputValue()).toBe('135');
  expect(await row.getByLabel('Spread of its life, percent').inputValue()).toBe('20');
  await row.getByText('1 op', { exact: true }).waitFor();
  const again = await openOperation(page, 'J-103');
  expect(await again.getByLabel('Minutes of TR12').inputValue()).toBe('12');
  expect(await again.getByLabel('Check', { exact: true }).inputValue()).toBe('Bore');
  expect(await again.getByLabel('Chance out of limits, percent').inputValue()).toBe('30');
  expect(await again.getByLabel('Block odds, percent').inputValue()).toBe('2.5');
  expect(await again.getByText(/^planned /).textContent()).toBe(followed);
  expect(complaints).toEqual([]);
});
