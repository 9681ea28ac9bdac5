import type { Browser, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { SCREENS } from '../../renderer/app/screens';
import { details, runsOverTime } from './bars';
import { figure, launchBrowser, openDesk, openPlannedDesk, planButton, plannedFolder, rowOf, tabTo } from './desk';

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

const heldTab = (page: Page, holds: number): Locator =>
  page.getByRole('tab', { name: holds === 0 ? 'Locked' : `Locked (${holds})`, exact: true });

/** Plans for a second at most. */
async function planByKeys(page: Page): Promise<void> {
  await tabTo(page, page.getByLabel('Take up to'));
  await page.keyboard.type('1');
  await tabTo(page, planButton(page));
  await page.keyboard.press('Enter');
  await page.getByRole('progressbar', { name: 'Planning time used' }).waitFor();
  await page.getByRole('button', { name: 'Plan again' }).waitFor();
}

/** Goes along the timeline to a run that has not begun; its machine. */
async function goToRun(page: Page): Promise<string> {
  await tabTo(page, runsOverTime(page));
  for (let steps = 0; steps < 20; steps++) {
    await page.keyboard.press('ArrowRight');
    const hold = details(page).getByRole('checkbox', { name: /^on / });
    if (await hold.isVisible()) return (await hold.locator('xpath=..').textContent()) ?? '';
  }
  throw new Error('No run of the plan has not begun.');
}

async function holdByKeys(page: Page): Promise<void> {
  const machine = await goToRun(page);
  await tabTo(page, details(page).getByRole('checkbox', { name: machine }));
  await page.keyboard.press('Space');
  await heldTab(page, 1).waitFor();
}

const palletInUse = (page: Page, inUse?: boolean): Locator =>
  rowOf(page, 'P-02').getByRole('checkbox', { name: 'In use', ...(inUse === undefined ? {} : { checked: inUse }) });

/** Takes a pallet out of use, whereupon another plan must be made. */
async function withdrawPallet(page: Page): Promise<void> {
  await page.keyboard.press('Alt+7');
  await tabTo(page, palletInUse(page));
  await page.keyboard.press('Space');
  await palletInUse(page, false).waitFor();
}

describe('by keyboard alone the lead', () => {
  it('plans the night, locks a run, unlocks it and undoes both', async () => {
    const { page, complaints } = await openDesk(browser);
    await planByKeys(page);
    await holdByKeys(page);
    // The focus is where it was: the same key frees it.
    await page.keyboard.press('Space');
    await heldTab(page, 0).waitFor();
    await page.keyboard.press('Control+z');
    await heldTab(page, 1).waitFor();
    await page.keyboard.press('Control+z');
    await heldTab(page, 0).waitFor();
    await page.keyboard.press('Control+y');
    await heldTab(page, 1).waitFor();
    expect(complaints).toEqual([]);
  });

  it('carries a run along the timeline, hears what comes of it and puts it down', async () => {
    const { page, complaints } = await openPlannedDesk(browser);
    await goToRun(page);
    const was = await details(page).textContent();
    await runsOverTime(page).focus();
    await page.keyboard.press('m');
    const heard = page.getByRole('region', { name: 'Timeline' }).getByRole('status');
    await heard.getByText(/^Moving .* Arrow keys move it, Enter drops it/).waitFor();
    for (let steps = 0; steps < 12; steps++) {
      await page.keyboard.press('Shift+ArrowRight');
      await heard.getByText(/Can(not)? stand here/).waitFor();
      if (/Can stand here/.test((await heard.textContent()) ?? '')) break;
    }
    const to = /, (\w{3} \d\d:\d\d) to/.exec((await heard.textContent()) ?? '')?.[1];
    await page.keyboard.press('Enter');
    await heldTab(page, 1).waitFor();
    await details(page)
      .getByRole('checkbox', { name: `at ${to}`, checked: true })
      .waitFor();
    await page.keyboard.press('Control+z');
    await heldTab(page, 0).waitFor();
    await expect.poll(() => details(page).textContent()).toBe(was);
    expect(complaints).toEqual([]);
  });

  it('walks every screen by Alt and a number', async () => {
    const { page, complaints } = await openPlannedDesk(browser);
    for (const [at, { name }] of [...SCREENS.entries()].reverse()) {
      await page.keyboard.press(`Alt+${(at + 1) % 10}`);
      await page
        .getByRole('navigation')
        .getByRole('link', { name, exact: true })
        .and(page.locator('[aria-current=page]'))
        .waitFor();
      await page.getByRole('main', { name }).waitFor();
    }
    expect(complaints).toEqual([]);
  });

  it('asks what a rush job displaces and drops it', async () => {
    const { page, complaints } = await openPlannedDesk(browser);
    await tabTo(page, page.getByRole('tab', { selected: true }));
    while (!(await page.getByRole('tabpanel', { name: 'Rush job' }).isVisible()))
      await page.keyboard.press('ArrowRight');
    await tabTo(page, page.getByRole('combobox', { name: 'Like' }));
    await page.keyboard.type('J-107');
    await tabTo(page, page.getByRole('textbox', { name: 'Parts' }));
    await page.keyboard.press('Control+a');
    await page.keyboard.type('4');
    await page.keyboard.press('Enter');
    const status = page.getByRole('form', { name: 'Rush job' }).getByRole('status');
    await status.getByText(/^R-1 is cut by|^R-1 does not fit/).waitFor();
    expect(await status.getByRole('term').allTextContents()).toContain('Out of tonight');
    await tabTo(page, page.getByRole('button', { name: 'Drop it' }));
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'See what it displaces' }).and(page.locator(':focus')).waitFor();
    expect(await status.textContent()).toBe('');
    await page.keyboard.press('Alt+5');
    await page.getByText('20 jobs, 109 runs').waitFor();
    expect(complaints).toEqual([]);
  });

  it('brings yesterday’s plan back', async () => {
    const folder = plannedFolder();
    const { page, complaints } = await openPlannedDesk(browser, folder, '2026-11-26T08:00');
    const yesterday = await figure(page, /./);
    await withdrawPallet(page);
    await page.keyboard.press('Alt+1');
    await planByKeys(page);
    expect(await figure(page, /./)).not.toEqual(yesterday);

    await page.keyboard.press('Alt+4');
    const before = page.getByRole('region', { name: 'Plan before' });
    await before.getByRole('heading', { name: 'Plan 1' }).waitFor();
    await tabTo(page, before.getByRole('checkbox', { name: 'with the shop as it was then' }));
    await page.keyboard.press('Space');
    await page.keyboard.press('Shift+Tab');
    await page.keyboard.press('Enter');
    await page.getByText(/^Brought back Plan 1, .*, with the shop as it was then\.$/).waitFor();
    await page.keyboard.press('Alt+1');
    await expect.poll(() => figure(page, /./)).toEqual(yesterday);
    expect(complaints).toEqual([]);
  });

  it('makes a what-if, changes it, plans it, compares and adopts it', async () => {
    const { page, complaints } = await openPlannedDesk(browser);
    await page.keyboard.press('Alt+4');
    await tabTo(page, page.getByRole('button', { name: 'New what-if' }));
    await page.keyboard.press('Enter');
    const banner = page.getByRole('region', { name: 'What-if' });
    await banner.getByText('You are changing a copy; the shop stays as it is.').waitFor();
    await withdrawPallet(page);
    await page.keyboard.press('Alt+1');
    await planByKeys(page);
    await tabTo(page, banner.getByRole('button', { name: 'Compare with the shop' }), 'Shift+Tab');
    await page.keyboard.press('Enter');
    const after = page.getByRole('region', { name: 'Plan after' });
    await tabTo(page, after.getByRole('button', { name: 'Adopt' }));
    await page.keyboard.press('Enter');
    await page.getByText(/^Adopted “/).waitFor();
    await page.keyboard.press('Alt+7');
    await palletInUse(page, false).waitFor();
    expect(await banner.count()).toBe(0);
    expect(complaints).toEqual([]);
  });
});

it('an undone change is still redone after the program was started again', async () => {
  const folder = plannedFolder();
  const before = await openPlannedDesk(browser, folder);
  await holdByKeys(before.page);
  await before.page.keyboard.press('Control+z');
  await heldTab(before.page, 0).waitFor();
  expect(await before.program.stop()).toBe(0);

  const after = await openPlannedDesk(browser, folder);
  await heldTab(after.page, 0).waitFor();
  await after.page.keyboard.press('Control+Shift+z');
  await heldTab(after.page, 1).waitFor();
  expect(after.complaints).toEqual([]);
});
