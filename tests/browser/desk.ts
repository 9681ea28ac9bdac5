import { cpSync } from 'node:fs';
import { createServer } from 'node:net';
import { type Browser, chromium, type Locator, type Page } from 'playwright-core';
import { inject, onTestFinished } from 'vitest';
import { CHROMIUM_FLAGS, chromiumPath, type Program, serveProgram, windowProgram } from '../support/program';
import { tempFolder } from '../support/temp-folder';
import { AT } from './moment';

export interface Desk {
  readonly page: Page;
  readonly program: Program;
  /** What the browser wrote to its console as an error, broken content policy included. */
  readonly complaints: readonly string[];
}

export function launchBrowser(): Promise<Browser> {
  return chromium.launch({ executablePath: chromiumPath(), args: CHROMIUM_FLAGS });
}

/** The served program on a data folder, opened in a browser of its own settings; both end with the test. */
export async function openDesk(browser: Browser, data = tempFolder(), at = AT): Promise<Desk> {
  const program = await serveProgram(data, at);
  onTestFinished(async () => void (await program.stop()));
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
  onTestFinished(() => context.close());
  const page = await context.newPage();
  const complaints = listenForComplaints(page);
  await page.goto(program.said);
  await page.getByText('Demo shop').first().waitFor();
  return { page, program, complaints };
}

/** The program on the demo week with a plan, the same for every test. */
export async function openPlannedDesk(browser: Browser, data = plannedFolder(), at = AT): Promise<Desk> {
  const desk = await openDesk(browser, data, at);
  await desk.page.getByRole('button', { name: 'Plan again' }).waitFor();
  return desk;
}

/** A data folder of its own with the demo week and a plan in it. */
export function plannedFolder(): string {
  const folder = tempFolder();
  cpSync(inject('plannedDemo'), folder, { recursive: true });
  return folder;
}

/** The window of the built Electron entry, in Chromium in place of Electron. */
export async function openWindow(): Promise<Desk> {
  const port = await freePort();
  const program = await windowProgram(tempFolder(), port);
  onTestFinished(async () => void (await program.stop()));
  const browser = await chromium.connectOverCDP(`http://127.0.0.1:${port}`);
  const page = browser.contexts()[0]?.pages()[0];
  if (page === undefined) throw new Error('The program opened no window.');
  const complaints = listenForComplaints(page);
  await page.reload();
  await page.getByText('Demo shop').first().waitFor();
  return { page, program, complaints };
}

function freePort(): Promise<number> {
  return new Promise((resolve) => {
    const probe = createServer().listen(0, '127.0.0.1', () => {
      const address = probe.address();
      probe.close(() => resolve(typeof address === 'object' && address !== null ? address.port : 0));
    });
  });
}

function listenForComplaints(page: Page): string[] {
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  return complaints;
}

export function goTo(page: Page, screen: string): Promise<void> {
  return page.getByRole('navigation').getByRole('link', { name: screen }).click();
}

export const planButton = (page: Page): Locator => page.getByRole('button', { name: /^Plan( again)?$/ });

/** Plans for at most `seconds` and waits for the plan. */
export async function plan(page: Page, seconds: number): Promise<void> {
  await goTo(page, 'Plan');
  await page.getByLabel('Take up to').fill(String(seconds));
  await planButton(page).click();
  await page.getByRole('button', { name: 'Stop, keep the best' }).waitFor();
  await page.getByRole('button', { name: 'Plan again' }).waitFor();
}

/** Presses Tab until `target` has the focus, which must be seen on it. */
export async function tabTo(page: Page, target: Locator, key: 'Tab' | 'Shift+Tab' = 'Tab'): Promise<void> {
  for (let presses = 0; presses < 100; presses++) {
    await page.keyboard.press(key);
    const focus = await focusOn(target);
    if (focus === 'unseen') throw new Error(`Nobody sees that the focus is on ${target}.`);
    if (focus === 'seen') return;
  }
  throw new Error(`The focus never came to ${target}.`);
}

function focusOn(target: Locator): Promise<'seen' | 'unseen' | 'elsewhere'> {
  return target.evaluate((element) => {
    if (element !== document.activeElement) return 'elsewhere';
    // What is wider than the window has its outline drawn within it.
    const styles = [element, ...element.children].flatMap((one) => [
      getComputedStyle(one),
      getComputedStyle(one, '::after'),
    ]);
    const isOutlined = styles.some(
      (style) => style.outlineStyle !== 'none' && Number.parseFloat(style.outlineWidth) > 0,
    );
    return isOutlined ? 'seen' : 'unseen';
  });
}

/** The row of one of the shop's tables whose first field is `id`. */
export function rowOf(page: Page, id: string): Locator {
  return page.getByRole('row').filter({ has: page.getByRole('button', { name: `Delete ${id}`, exact: true }) });
}

/** A number of the plan by its label: `['24.0 h', '25.1 h loaded, no plan above 26.3 h']`. */
export function figure(page: Page, label: string | RegExp): Promise<string[]> {
  return page.getByRole('term').filter({ hasText: label }).locator('xpath=..').getByRole('definition').allInnerTexts();
}

export type BarKind = 'mill' | 'grind' | 'mill-grind' | 'bench';

/** How many pixels of the timeline have exactly the colour that the present theme gives to each kind of machine. */
export function barPixels(page: Page): Promise<Record<BarKind, number>> {
  return page
    .getByRole('application')
    .locator('canvas[data-layer="bars"]')
    .evaluate((element) => {
      const canvas = element as HTMLCanvasElement;
      const style = getComputedStyle(document.documentElement);
      const { data } = canvas.getContext('2d')?.getImageData(0, 0, canvas.width, canvas.height) ?? { data: [] };
      const count = (kind: string): number => {
        const colour = Number.parseInt(style.getPropertyValue(`--bar-${kind}`).trim().slice(1), 16);
        let pixels = 0;
        for (let at = 0; at < data.length; at += 4) {
          if (((data[at] ?? 0) << 16) + ((data[at + 1] ?? 0) << 8) + (data[at + 2] ?? 0) === colour) pixels += 1;
        }
        return pixels;
      };
      return { mill: count('mill'), grind: count('grind'), 'mill-grind': count('mill-grind'), bench: count('bench') };
    });
}
