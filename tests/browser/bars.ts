import type { Locator, Page } from 'playwright-core';

export interface Point {
  readonly x: number;
  readonly y: number;
}

/** A bar of the timeline that the mouse has found. */
export interface FoundBar {
  /** Where on the page the mouse came upon it. */
  readonly at: Point;
  /** What the timeline says of it under the mouse. */
  readonly said: string;
}

export const timeline = (page: Page): Locator => page.getByRole('region', { name: 'Timeline' });
export const runsOverTime = (page: Page): Locator => page.getByRole('application');
export const details = (page: Page): Locator => page.getByRole('region', { name: 'Details' });

/** What stands beside the mouse: of the thing under it, or of the run it carries. */
export const besideMouse = (page: Page): Locator => timeline(page).locator('> [aria-hidden="true"]');

const STEP = 8;

/** Moves the mouse along a machine's row, from left to right, until it is over a bar of which `says` is said. */
export async function findBar(page: Page, machine: string, says: RegExp): Promise<FoundBar> {
  const runs = await boxOf(runsOverTime(page));
  const name = await boxOf(timeline(page).getByText(machine, { exact: true }).first());
  const y = name.y + name.height / 2;
  for (let x = runs.x + STEP; x < runs.x + runs.width; x += STEP) {
    await page.mouse.move(x, y);
    if (!says.test(await saidBesideMouse(page))) continue;
    // The note may be a step late: if so, this was the end of another bar.
    await page.mouse.move(x + STEP, y);
    await page.evaluate(() => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))));
    const said = await saidBesideMouse(page);
    if (says.test(said)) return { at: { x: x + STEP, y }, said };
  }
  throw new Error(`Nothing on ${machine} says ${says}.`);
}

async function saidBesideMouse(page: Page): Promise<string> {
  return (await besideMouse(page).allTextContents()).join();
}

async function boxOf(target: Locator): Promise<Point & { readonly width: number; readonly height: number }> {
  const box = await target.boundingBox();
  if (box === null) throw new Error(`${target} is nowhere on the page.`);
  return box;
}
