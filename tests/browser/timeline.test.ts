import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { barPixels, launchBrowser, openDesk, plan } from './desk';

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

async function openPlan(): Promise<{ page: Page; complaints: readonly string[] }> {
  const { page, complaints } = await openDesk(browser);
  await plan(page, 1);
  return { page, complaints };
}

const stage = (page: Page) => page.getByRole('application');
const shown = (page: Page): Promise<string | null> =>
  page.getByRole('slider', { name: 'Time shown' }).getAttribute('aria-valuetext');

describe('the timeline in a browser', () => {
  it('shows the same plan by machine, pallet and job', async () => {
    const { page, complaints } = await openPlan();
    for (const rows of ['Pallets', 'Jobs', 'Machines']) {
      await page.getByRole('button', { name: rows, exact: true }).click();
      await expect.poll(() => barPixels(page)).toSatisfy((kinds) => kinds.mill > 2000);
    }
    await page.getByRole('button', { name: 'Jobs', exact: true }).click();
    await page.getByText('J-118', { exact: true }).first().waitFor();
    expect(complaints).toEqual([]);
  });

  it('pans by dragging and by the window on the whole plan, which follows', async () => {
    const { page, complaints } = await openPlan();
    const before = await shown(page);
    const box = (await stage(page).boundingBox())!;
    await page.mouse.move(box.x + 400, box.y + 2);
    await page.mouse.down();
    await page.mouse.move(box.x + 200, box.y + 2, { steps: 4 });
    await page.mouse.up();
    await expect.poll(() => shown(page)).not.toBe(before);
    const panned = await shown(page);
    await page.getByRole('slider', { name: 'Time shown' }).focus();
    await page.keyboard.press('End');
    await expect.poll(() => shown(page)).not.toBe(panned);
    await stage(page).focus();
    await page.keyboard.press('t');
    await expect.poll(() => shown(page)).toBe(before);
    expect(complaints).toEqual([]);
  });

  it('keeps its canvases no taller than what is seen of the rows', async () => {
    const { page, complaints } = await openPlan();
    await page.setViewportSize({ width: 1100, height: 560 });
    await page.getByRole('button', { name: 'Jobs', exact: true }).click();
    const scroller = stage(page).locator('xpath=..');
    await expect.poll(() => scroller.evaluate((body) => body.scrollHeight > body.clientHeight)).toBe(true);
    const heights = (): Promise<number[]> =>
      stage(page)
        .locator('canvas')
        .evaluateAll((canvases) => canvases.map((canvas) => canvas.clientHeight));
    const seen = await scroller.evaluate((body) => body.clientHeight);
    await expect.poll(heights).toEqual([seen, seen, seen]);
    const top = await barPixels(page);
    await scroller.evaluate((body) => body.scrollTo(0, body.scrollHeight));
    await expect.poll(() => barPixels(page)).not.toEqual(top);
    expect(complaints).toEqual([]);
  });
});
