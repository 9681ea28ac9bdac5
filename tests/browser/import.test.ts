import { readFile } from 'node:fs/promises';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { goTo, launchBrowser, openDesk, rowOf } from './desk';

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

/** Pastes onto whatever has the focus, as the keyboard would. */
function paste(page: Page, text: string): Promise<void> {
  return page.evaluate((pasted) => {
    const clipboardData = new DataTransfer();
    clipboardData.setData('text/plain', pasted);
    const event = new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true });
    (document.activeElement ?? document.body).dispatchEvent(event);
  }, text);
}

it('jobs pasted from a spreadsheet are shown, taken in on one press, and there again after a reload', async () => {
  const { page, complaints } = await openDesk(browser);
  await goTo(page, 'Jobs');
  await page.getByLabel('Customer').first().focus();
  const rows = [
    'Job\tQty\tDue\tOp\tMachine\tCycle\tFixture\tLoad',
    'J-301\t8\t2026-12-04 16:00\t10\tM1; M2\t3:00; 2:50\tVISE4\t12',
    'J-301\t\t\t20\tM2\t1:45\tCHUCK\t10',
    'J-302\t4\t11/12/2026\t10\tM1\t90\tVISE4\t12',
  ];
  await paste(page, `${rows.join('\r\n')}\r\n`);
  await page.getByText('Row 4, due: "11/12/2026" means other days').waitFor();
  // The keyboard presses it too.
  const take = page.getByRole('button', { name: 'Import 2 good rows' });
  await take.focus();
  await page.keyboard.press('Enter');
  await page.getByText('Imported 1 job.').waitFor();
  await page.reload();
  await goTo(page, 'Jobs');
  expect(await rowOf(page, 'J-301').getByLabel('Quantity').inputValue()).toBe('8');
  await rowOf(page, 'J-301').getByText('M1/M2, M2').waitFor();
  expect(await rowOf(page, 'J-302').count()).toBe(0);
  expect(complaints).toEqual([]);
});

it('a table saved as CSV brings back what was deleted since', async () => {
  const { page, complaints } = await openDesk(browser);
  await goTo(page, 'Shop');
  const saving = page.waitForEvent('download');
  await page.getByRole('button', { name: 'Jobs', exact: true }).click();
  const saved = await saving;
  expect(saved.suggestedFilename()).toBe('demo-shop-jobs.csv');
  const file = await readFile(await saved.path());

  await goTo(page, 'Jobs');
  const due = await rowOf(page, 'J-101').getByLabel('Due', { exact: true }).inputValue();
  await page.getByRole('button', { name: 'Delete J-101', exact: true }).click();
  await rowOf(page, 'J-101').waitFor({ state: 'detached' });
  await page.getByRole('button', { name: 'Import jobs' }).click();
  await page
    .getByLabel('File of jobs to import')
    .setInputFiles({ name: 'jobs.csv', mimeType: 'text/csv', buffer: file });
  await page.getByText('20 jobs').first().waitFor();
  await page.getByRole('button', { name: /^Import \d+ good rows$/ }).click();
  await page.getByText('Imported 20 jobs.').waitFor();
  expect(await rowOf(page, 'J-101').getByLabel('Due', { exact: true }).inputValue()).toBe(due);
  expect(complaints).toEqual([]);
});
