import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { tempFolder } from '../support/temp-folder';
import { details, runsOverTime } from './bars';
import { barPixels, figure, goTo, launchBrowser, openDesk, openPlannedDesk, plan, planButton, rowOf } from './desk';

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

describe('the demo week in a browser', () => {
  it('shows bars in the colours of the machines, light and dark, the night beside its bound, and rounds', async () => {
    const { page, complaints } = await openPlannedDesk(browser);
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme });
      await expect.poll(() => barPixels(page)).toSatisfy((kinds) => kinds.mill > 5000);
      const painted = await barPixels(page);
      expect(painted['mill-grind']).toBeGreaterThan(2000);
      expect(painted.grind).toBeGreaterThan(500);
    }

    const [tonight = '', bound = ''] = await figure(page, 'To expect tonight, by odds');
    expect(tonight).toMatch(/^\d+\.\d h$/);
    expect(bound).toMatch(/^\d+\.\d h loaded, no plan above \d+\.\d h$/);
    const most = Number(/no plan above ([\d.]+)/.exec(bound)?.[1]);
    expect(Number.parseFloat(tonight)).toBeGreaterThan(0);
    expect(Number.parseFloat(tonight)).toBeLessThanOrEqual(most);

    const rounds = page.getByRole('tabpanel', { name: 'Rounds' }).getByRole('article');
    expect(await rounds.first().textContent()).toMatch(/^13:\d\d to \d\d:\d\dJana/);
    const stop = rounds.getByRole('button', { name: /Load P-\d\d for J-\d+ op \d+/ }).first();
    await stop.click();
    expect(await stop.getAttribute('aria-pressed')).toBe('true');
    await details(page).getByText('Load', { exact: true }).waitFor();
    expect(complaints).toEqual([]);
  });

  it('is walked from bar to bar by keyboard, each read out in words', async () => {
    const { page, complaints } = await openPlannedDesk(browser);
    const spoken = page.getByRole('region', { name: 'Timeline' }).getByRole('status');
    const press = async (key: string): Promise<string | null> => {
      const before = await spoken.textContent();
      await page.keyboard.press(key);
      await expect.poll(() => spoken.textContent()).not.toBe(before);
      return spoken.textContent();
    };
    await runsOverTime(page).focus();
    const first = await press('ArrowRight');
    expect(first).toMatch(/^J-118 Copper electrode, ribs\. op 10.*Machine: M1 Mill 1\. Pallet: P-01\./);
    await details(page).getByRole('heading', { name: 'J-118 Copper electrode, ribs' }).waitFor();
    expect(await press('ArrowRight')).toMatch(/Machine: M1 Mill 1\.|^M1 Mill 1:/);
    expect(await press('ArrowDown')).toMatch(/Machine: M2 Mill 2\.|^M2 Mill 2:/);
    await press('End');
    expect(await press('Home')).toMatch(/^J-101 .*Machine: M2 Mill 2\./);
    expect(await press('Escape')).toBe('');
    await details(page).getByRole('heading', { name: 'Tonight by machine' }).waitFor();
    expect(complaints).toEqual([]);
  });

  it('outdates the plan when a job is edited, plans the change, and has all of it again after a restart', async () => {
    const folder = tempFolder();
    const before = await openDesk(browser, folder);
    await plan(before.page, 1);
    await before.page.getByRole('tab', { name: /^Late/ }).click();
    const late = before.page.getByRole('tabpanel', { name: /^Late/ });
    await late.getByRole('heading', { name: 'J-115' }).waitFor();

    await goTo(before.page, 'Jobs');
    const due = rowOf(before.page, 'J-115').getByRole('textbox', { name: 'Due' });
    await due.fill('fri 11 dec 12:00');
    await due.press('Enter');
    await goTo(before.page, 'Plan');
    await before.page.getByText('Shop changed since this plan').waitFor();
    await plan(before.page, 2);
    expect(await before.page.getByText('Shop changed since this plan').count()).toBe(0);
    await before.page.getByRole('tab', { name: /^Late/ }).click();
    await late.getByRole('heading', { name: 'J-116' }).waitFor();
    expect(await late.getByRole('heading', { name: 'J-115' }).count()).toBe(0);

    await goTo(before.page, 'Shop');
    await before.page.getByRole('radio', { name: 'dark' }).click();
    await before.page.locator('html[data-theme=dark]').waitFor();
    await goTo(before.page, 'Plan');
    const figures = await figure(before.page, /./);
    expect(before.complaints).toEqual([]);
    expect(await before.program.stop()).toBe(0);
    await before.page.getByText('Connection lost').waitFor();

    const after = await openDesk(browser, folder);
    await after.page.locator('html[data-theme=dark]').waitFor();
    await after.page.getByRole('button', { name: 'Plan again' }).waitFor();
    expect(await after.page.getByLabel('Take up to').inputValue()).toBe('2');
    expect(await figure(after.page, /./)).toEqual(figures);
    expect(await after.page.getByText('Shop changed since this plan').count()).toBe(0);
    await goTo(after.page, 'Jobs');
    const kept = rowOf(after.page, 'J-115').getByRole('textbox', { name: 'Due' });
    expect(await kept.inputValue()).toBe('Fri 11 Dec 12:00');
    expect(after.complaints).toEqual([]);
  });

  it('keeps the best plan so far when planning is stopped', async () => {
    const { page, complaints } = await openDesk(browser);
    await page.getByLabel('Take up to').fill('600');
    await planButton(page).click();
    await page.getByText(/^Best: tonight/).waitFor();
    await page.getByRole('button', { name: 'Stop, keep the best' }).click();
    await page.getByText(/stopped after \d/).waitFor();
    expect(await figure(page, 'Tonight')).toHaveLength(2);
    await expect.poll(async () => (await barPixels(page)).mill).toBeGreaterThan(1000);
    expect(complaints).toEqual([]);
  });

  it('divides every window of the shifts table into its uses without a rest', async () => {
    const { page, complaints } = await openPlannedDesk(browser);
    await goTo(page, 'Shifts');
    const rows = page
      .getByRole('table')
      .getByRole('row')
      .filter({ has: page.getByRole('cell') });
    await page.getByRole('rowheader', { name: 'All shifts' }).waitFor();
    const lines = await rows.evaluateAll((found) =>
      found.map((row) => [...row.querySelectorAll('td')].map((cell) => Number.parseFloat(cell.textContent))),
    );
    // Three shifts and what is outside them, each with four machines under it, and the sum.
    expect(lines).toHaveLength(4 * 5 + 1);
    const ROUNDING = 8 * 0.05;
    for (const [window = 0, ...columns] of lines) {
      const uses = columns.slice(0, 7);
      expect(window).toBeGreaterThan(0);
      expect(Math.abs(uses.reduce((sum, hours) => sum + hours, 0) - window)).toBeLessThanOrEqual(ROUNDING);
    }
    const windows = lines.map(([window = 0]) => window);
    const [all = 0] = windows.slice(-1);
    expect(windows.reduce((sum, window) => sum + window, 0)).toBeCloseTo(3 * all, 1);
    expect(complaints).toEqual([]);
  });
});
