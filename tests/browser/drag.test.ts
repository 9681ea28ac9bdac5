import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { besideMouse, details, findBar, type Point } from './bars';
import { launchBrowser, openPlannedDesk } from './desk';

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser.close());

/** A run of hours that is still to be loaded. */
const TO_COME = /op \d+.* run \d+ of \d+.*Load[A-Z][a-z]+, .*Cut\w{3} \d\d:\d\d to .*\d h/;

/** What is said of that run and no other, wherever it stands. */
const runOf = (said: string): RegExp => {
  const [, job, operation, number] = /(J-\d+).*op (\d+).*run (\d+) of/.exec(said) ?? [];
  if (job === undefined) throw new Error(`No run is named in "${said}".`);
  return new RegExp(`${job}.*op ${operation}.*run ${number} of`);
};

const cutOf = (said: string): string | undefined => /Cut(\w{3} \d\d:\d\d)/.exec(said)?.[1];

/** Carries what lies there to the right, ever further, until it can stand. */
async function carryToWhereItCanStand(page: Page, from: Point): Promise<string> {
  await page.mouse.move(from.x, from.y);
  await page.mouse.down();
  for (let x = from.x + 60; x < from.x + 300; x += 45) {
    await page.mouse.move(x, from.y, { steps: 3 });
    const verdict = besideMouse(page).getByText(/^Can(not)? stand here$/);
    await verdict.waitFor();
    if ((await verdict.textContent()) === 'Can stand here') return (await besideMouse(page).textContent()) ?? '';
  }
  throw new Error('It could stand nowhere.');
}

it('a run dragged to another time is judged under the mouse, held where it was put, and back with one undo', async () => {
  const { page, complaints } = await openPlannedDesk(browser);
  const found = await findBar(page, 'M2', TO_COME);
  const run = runOf(found.said);
  const was = cutOf(found.said);

  const judged = await carryToWhereItCanStand(page, found.at);
  const put = /M2 .*?, (\w{3} \d\d:\d\d) to/.exec(judged)?.[1];
  expect(put).not.toBe(was);
  await page.mouse.up();
  await page.getByRole('tab', { name: 'Locked (1)' }).click();
  await page.getByRole('tabpanel', { name: 'Locked (1)' }).getByText(`on M2, at ${put}`, { exact: true }).waitFor();

  await expect.poll(async () => cutOf((await findBar(page, 'M2', run)).said), { timeout: 20_000 }).toBe(put);
  const { at } = await findBar(page, 'M2', run);
  await page.mouse.click(at.x, at.y);
  expect(
    await details(page)
      .getByRole('checkbox', { name: `at ${put}` })
      .isChecked(),
  ).toBe(true);

  await page.keyboard.press('Control+z');
  await page.getByRole('tabpanel', { name: 'Locked', exact: true }).getByText('Nothing is locked.').waitFor();
  await details(page)
    .getByText(new RegExp(`^${was} to `))
    .waitFor();
  await page.keyboard.press('Escape');
  expect(cutOf((await findBar(page, 'M2', run)).said)).toBe(was);
  expect(complaints).toEqual([]);
});
