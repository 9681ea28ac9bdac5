import axe from 'axe-core';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { runsOverTime } from './bars';
import { goTo, launchBrowser, openPlannedDesk } from './desk';

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

/** What stands in the way of people, worst kinds only: rule, place and reason. Without `rules`: by all of them. */
async function obstacles(page: Page, rules?: readonly string[]): Promise<string[]> {
  // The pages forbid scripts that are not theirs; what is evaluated from outside is none.
  if (!(await page.evaluate('"axe" in window'))) await page.evaluate(axe.source);
  const options = { resultTypes: ['violations'], ...(rules === undefined ? {} : { runOnly: rules }) };
  return page.evaluate(`axe.run(${JSON.stringify(options)}).then(({ violations }) =>
    violations
      .filter(({ impact }) => impact === 'serious' || impact === 'critical')
      .flatMap(({ id, nodes }) => nodes.map(({ target, any, all, none }) =>
        [id, target.join(' '), [...any, ...all, ...none].map(({ message }) => message).join('; ')].join(' | '))))`);
}

const PALLETS = 'pallet\tfixture\nP-01\tVISE\nP-91\tPLATE\nP-92\t\n';

/** How each screen is brought up as people see it at work; what it is when it is there. */
const SCREENS: Readonly<Record<string, (page: Page) => Promise<void>>> = {
  'Plan with a run selected': async (page) => {
    await goTo(page, 'Plan');
    await runsOverTime(page).press('ArrowRight');
    await page.getByRole('group', { name: 'Lock' }).or(page.getByText('On the floor already')).waitFor();
  },
  'Plan with the held runs': async (page) => {
    await page.getByRole('tab', { name: /^Locked/ }).click();
    await page.getByText('Nothing is locked.').waitFor();
  },
  'Plan with a rush job': async (page) => {
    await page.getByRole('tab', { name: 'Rush job' }).click();
    const see = page.getByRole('button', { name: 'See what it displaces' });
    if (await see.isVisible()) await see.click();
    await page.getByRole('button', { name: 'Accept it' }).waitFor();
  },
  Tonight: async (page) => {
    await goTo(page, 'Tonight');
    await page.getByRole('button', { name: 'Run sheet' }).waitFor();
  },
  'Run sheet': async (page) => {
    await page.getByRole('button', { name: 'Run sheet' }).click();
    await page.getByRole('region', { name: 'M1 Mill 1' }).waitFor();
  },
  Shifts: async (page) => {
    await goTo(page, 'Shifts');
    await page.getByRole('rowheader', { name: 'All shifts' }).waitFor();
  },
  'Compare, two plans': async (page) => {
    await goTo(page, 'Plan');
    await page.getByRole('tab', { name: 'Rush job' }).click();
    await page.getByRole('button', { name: 'Accept it' }).click();
    await page.getByRole('tab', { name: 'Rounds', selected: true }).waitFor();
    await goTo(page, 'Compare');
    await page.getByRole('region', { name: 'Plan after', exact: true }).waitFor();
  },
  'Jobs with an open row': async (page) => {
    await goTo(page, 'Jobs');
    await page.getByRole('button', { name: 'Details of J-102' }).click();
    await page.getByRole('button', { name: 'Tools, checks, odds and proof of operation 10' }).first().click();
    await page.getByRole('region', { name: 'Tools, checks, odds and proof of operation 10' }).waitFor();
  },
  Machines: async (page) => {
    await goTo(page, 'Machines');
    await page.getByText('5 machines').waitFor();
  },
  Pallets: async (page) => {
    await goTo(page, 'Pallets');
    await page.getByRole('button', { name: 'Import pallets' }).waitFor();
  },
  'Pallets with rows to import': async (page) => {
    await page.getByRole('button', { name: 'Import pallets' }).click();
    await page.getByRole('textbox', { name: 'Rows of pallets to import' }).fill(PALLETS);
    await page.getByRole('button', { name: 'Read what was typed' }).click();
    await page.getByText('2 rows good').waitFor();
  },
  Tools: async (page) => {
    await goTo(page, 'Tools');
    await page.getByLabel('New tool').waitFor();
  },
  People: async (page) => {
    await goTo(page, 'People');
    await page.getByRole('button', { name: 'Import people' }).waitFor();
  },
  Shop: async (page) => {
    await goTo(page, 'Shop');
    await page.getByRole('button', { name: 'Open shop file…' }).waitFor();
  },
};

it('no screen stands in the way of people who see, hear or point otherwise, light or dark', async () => {
  const { page, complaints } = await openPlannedDesk(browser);
  await page.emulateMedia({ reducedMotion: 'reduce' });
  const found: string[] = [];
  for (const [screen, bringUp] of Object.entries(SCREENS)) {
    await bringUp(page);
    await page.emulateMedia({ colorScheme: 'light' });
    const light = await obstacles(page);
    // Nothing but the colours differs.
    await page.emulateMedia({ colorScheme: 'dark' });
    const dark = await obstacles(page, ['color-contrast']);
    found.push(...light.map((say) => `${screen}: ${say}`), ...dark.map((say) => `${screen}, dark: ${say}`));
  }
  expect(found).toEqual([]);
  expect(complaints).toEqual([]);
});
