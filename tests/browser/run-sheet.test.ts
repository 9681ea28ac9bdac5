import { readFile } from 'node:fs/promises';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { pagesOf, readPdf } from '../support/read-pdf';
import { goTo, launchBrowser, openPlannedDesk } from './desk';

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

async function openSheet(page: Page): Promise<void> {
  await goTo(page, 'Tonight');
  await page.getByRole('button', { name: 'Run sheet' }).click();
  await page.getByRole('region', { name: 'M1 Mill 1' }).waitFor();
}

/** Of what is seen in print: the smallest letters and the smallest times, in points, and texts wider than their cell. */
function lettersIn(page: Page): Promise<{ least: number; leastTime: number; cut: string[] }> {
  return page.evaluate(() => {
    const shown = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    const sizes: { text: string; size: number }[] = [];
    const cut: string[] = [];
    while (shown.nextNode()) {
      const text = shown.currentNode.textContent?.trim() ?? '';
      const parent = shown.currentNode.parentElement;
      if (text === '' || parent === null || !parent.checkVisibility()) continue;
      sizes.push({ text, size: Number.parseFloat(getComputedStyle(parent).fontSize) * 0.75 });
      const cell = parent.closest('td, th');
      if (cell !== null && cell.scrollWidth > cell.clientWidth + 1) cut.push(text);
    }
    const inTables = sizes.filter(({ text }) => /^(to )?([A-Z][a-z]{2} )?\d\d:\d\d$/.test(text));
    return {
      least: Math.min(...sizes.map(({ size }) => size)),
      leastTime: Math.min(...inTables.map(({ size }) => size)),
      cut,
    };
  });
}

describe('the run sheet in a browser', () => {
  it('prints across A4 and Letter, on pages none of which is empty, in letters to be read at arm’s length', async () => {
    const { page, complaints } = await openPlannedDesk(browser);
    await openSheet(page);
    const sheets = await page.getByRole('region').count();
    await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
    for (const [format, width] of [
      ['A4', 842],
      ['Letter', 792],
    ] as const) {
      // As wide as what the margins leave of the paper, at 96 pixels to the inch.
      await page.setViewportSize({ width: Math.floor(((width - 57) * 96) / 72), height: 700 });
      const { least, leastTime, cut } = await lettersIn(page);
      expect(least).toBeGreaterThanOrEqual(11 - 0.01);
      expect(leastTime).toBeGreaterThanOrEqual(13 - 0.01);
      expect(cut).toEqual([]);
      const pages = pagesOf(await page.pdf({ format, landscape: true }));
      expect(pages.length).toBeGreaterThanOrEqual(sheets);
      expect(pages.map((one) => Math.abs(one.width - width) < 2)).not.toContain(false);
      // A page with nothing but its number shows two pieces of text at most.
      for (const { drawn } of pages) expect(drawn.match(/T[jJ]/g)?.length ?? 0).toBeGreaterThan(10);
    }
    expect(complaints).toEqual([]);
  });

  it('keeps a PDF with a page for each machine and for the cell', async () => {
    const { page, complaints } = await openPlannedDesk(browser);
    await openSheet(page);
    const [download] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Save PDF' }).click(),
    ]);
    expect(download.suggestedFilename()).toBe('demo-shop-run-sheet-plan-1.pdf');
    const pages = readPdf(await readFile(await download.path()));
    for (const title of ['M1', 'M2', 'MG1', 'G1', 'B1', 'CELL']) {
      expect(pages.filter(({ text }) => text.startsWith(title)).length).toBeGreaterThan(0);
    }
    await page.getByRole('button', { name: 'Back' }).click();
    await page.getByRole('button', { name: 'Release for tonight' }).waitFor();
    expect(complaints).toEqual([]);
  });
});
