import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { demoShop } from '../../core/shop';
import { goTo, launchBrowser, openDesk, planButton, rowOf } from './desk';

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

const demo = demoShop('2026-11-25');
const DEMO_TEXT = JSON.stringify(demo);

/** Opens a shop file in place of the demo shop, as far as the program lets it. */
async function openFile(page: Page, name: string, text: string): Promise<void> {
  await goTo(page, 'Shop');
  const chooser = page.waitForEvent('filechooser');
  await page.getByRole('button', { name: 'Open shop file…' }).click();
  await (await chooser).setFiles({ name, mimeType: 'application/json', buffer: Buffer.from(text) });
  await page.getByRole('button', { name: 'Replace Demo shop' }).click();
}

describe('bad input in a browser', () => {
  it('refuses a file cut off, of another version or of another kind with a sentence, and loses nothing', async () => {
    const { page, complaints } = await openDesk(browser);
    const refused = [
      [DEMO_TEXT.slice(0, DEMO_TEXT.length / 2), /ends in the middle, at line \d+, column \d+.*Fetch a whole copy/],
      [JSON.stringify({ ...demo, version: 7 }), /has version 7; this program reads version 1\. Update this program/],
      ['{"format":"recipe"}', /no shop file: its format is "recipe"\. Choose another/],
    ] as const;
    for (const [text, sentence] of refused) {
      await openFile(page, 'theirs.json', text);
      const alert = page.getByRole('alert').filter({ hasText: 'Not taken; the shop is as it was.' });
      await alert.waitFor();
      expect(await alert.getByRole('listitem').allTextContents()).toEqual([expect.stringMatching(sentence)]);
    }
    await page.reload();
    await goTo(page, 'Jobs');
    await page.getByText('20 jobs, 109 runs').waitFor();
    expect(complaints).toEqual([]);
  });

  it('opens a shop with a fixture that no pallet carries, says so, and leads to the field', async () => {
    const { page, complaints } = await openDesk(browser);
    await openFile(
      page,
      'theirs.json',
      DEMO_TEXT.replace('"fixture":"PLATE","perPallet"', '"fixture":"PLAET","perPallet"'),
    );
    await page.getByText('Opened theirs.json.').waitFor();
    await goTo(page, 'Plan');
    const stops = page.getByRole('alert', { name: 'What stops planning' });
    const say = await stops.getByRole('listitem').textContent();
    expect(say).toMatch(
      /^Job J-1\d\d, operation 10, fixture: no pallet carries fixture PLAET \(there are .*\); add a /,
    );
    await stops.getByRole('button').click();
    const field = page.getByRole('combobox', { name: 'Fixture' }).and(page.locator(':focus'));
    await field.waitFor();
    expect(await field.inputValue()).toBe('PLAET');
    await field.fill('PLATE');
    await field.press('Enter');
    await goTo(page, 'Plan');
    await page.getByText('No plan yet. Press Plan').waitFor();
    expect(complaints).toEqual([]);
  });

  it('does not plan a job that no machine can take, says why, and leads to its row', async () => {
    const { page, complaints } = await openDesk(browser);
    await goTo(page, 'Machines');
    await rowOf(page, 'G1').getByRole('checkbox', { name: 'In use' }).click();
    await page.getByText('5 machines, 1 not in use').waitFor();
    await goTo(page, 'Plan');
    await planButton(page).click();
    const stops = page.getByRole('alert', { name: 'What stops planning' });
    const fault = stops.getByRole('listitem').filter({ hasText: 'Job J-102' });
    expect(await fault.textContent()).toMatch(
      /^Job J-102, operation 20: no machine can take it: G1 is not in use\. To help: /,
    );
    await page.getByText('No plan yet. Mend what stands above').waitFor();
    await fault.getByRole('button', { name: 'Show jobs, J-102' }).click();
    await page.getByRole('table', { name: 'Route of J-102' }).locator(':focus').waitFor();
    expect(complaints).toEqual([]);
  });
});
