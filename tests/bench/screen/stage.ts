import { cpSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type Browser, chromium, type Page } from 'playwright-core';
import type { Shop } from '../../../core/shop';
import { planInto } from '../../support/planned-folder';
import { CHROMIUM_FLAGS, chromiumPath, serveProgram } from '../../support/program';

/** A Wednesday before the demo week, which begins the Monday after. */
export const AT = '2026-11-25T08:00';

/** The served program on a page of its own. */
export interface Stage {
  readonly page: Page;
  close(): Promise<void>;
}

/** A browser, and data folders that go with it. */
export class Theatre {
  private readonly folders: string[] = [];

  private constructor(readonly browser: Browser) {}

  static async open(): Promise<Theatre> {
    return new Theatre(await chromium.launch({ executablePath: chromiumPath(), args: CHROMIUM_FLAGS }));
  }

  folder(): string {
    const folder = mkdtempSync(join(tmpdir(), 'nightload-bench-'));
    this.folders.push(folder);
    return folder;
  }

  copyOf(folder: string): string {
    const copy = this.folder();
    cpSync(folder, copy, { recursive: true });
    return copy;
  }

  /** A data folder with a shop, null for the demo, planned for so many seconds, and the runs of its plan. */
  async planned(shop: Shop | null, seconds: number): Promise<{ folder: string; runs: number }> {
    const folder = this.folder();
    const view = await planInto(folder, { at: AT, shop: shop === null ? null : JSON.stringify(shop), seconds });
    return { folder, runs: view?.plan.runs.length ?? 0 };
  }

  async stage(data: string): Promise<Stage> {
    const program = await serveProgram(data, AT);
    const context = await this.browser.newContext({ viewport: { width: 1440, height: 900 } });
    const page = await context.newPage();
    await page.goto(program.said);
    await page.getByRole('navigation').waitFor();
    return {
      page,
      async close() {
        await context.close();
        await program.stop();
      },
    };
  }

  async close(): Promise<void> {
    await this.browser.close();
    for (const folder of this.folders) rmSync(folder, { recursive: true, force: true });
  }
}

/** Until a plan is on the screen, drawn. */
export async function planShown(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Plan again' }).waitFor();
  await barsShown(page);
}

/** Bars of a plan are drawn, be it the best so far. */
export async function barsShown(page: Page): Promise<void> {
  await page.getByRole('application').locator('canvas[data-layer="bars"]').waitFor();
  await page.evaluate(() => new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn))));
}

export async function setSeconds(page: Page, seconds: number): Promise<void> {
  await page.getByLabel('Take up to').fill(String(seconds));
  await page.getByLabel('Take up to').press('Enter');
}
