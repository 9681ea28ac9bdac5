import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { AT, barsShown, planShown, setSeconds, type Theatre } from './stage';

const top = fileURLToPath(new URL('../../..', import.meta.url));

/** The usual time to plan in. */
const FIRST_SECONDS = 5;

/** Each is measured so often. */
const TIMES = 5;

/** From the start of the program, data folder there and built, to the plan on the screen of a browser that runs already. */
export async function measureStart(theatre: Theatre, planned: string): Promise<number[]> {
  return repeatedly(async () => {
    const data = theatre.copyOf(planned);
    const context = await theatre.browser.newContext({ viewport: { width: 1440, height: 900 } });
    const page = await context.newPage();
    const begun = performance.now();
    const program = spawn(
      process.execPath,
      ['main/nightload.mjs', 'serve', '--port', '0', '--data', data, '--at', AT],
      {
        cwd: top,
        stdio: ['ignore', 'pipe', 'inherit'],
      },
    );
    const address = await new Promise<string>((resolve) => {
      program.stdout.on('data', (part) => {
        const said = /http:\S+/.exec(String(part))?.[0];
        if (said !== undefined) resolve(said);
      });
    });
    await page.goto(address);
    await planShown(page);
    const taken = performance.now() - begun;
    await context.close();
    const ended = new Promise((resolve) => program.on('exit', resolve));
    program.kill('SIGINT');
    await ended;
    return taken;
  });
}

export interface FirstPlan {
  /** To the first line that tells of a plan, milliseconds. */
  readonly told: readonly number[];
  /** To the first bars. */
  readonly bars: readonly number[];
}

/** From pressing Plan in a shop that was never planned; the bars are those of the best plan so far. */
export async function measureFirstPlan(theatre: Theatre): Promise<FirstPlan> {
  const told: number[] = [];
  const bars = await repeatedly(async () => {
    const { page, close } = await theatre.stage(theatre.folder());
    await page.getByText('No plan yet').waitFor();
    await setSeconds(page, FIRST_SECONDS);
    const begun = performance.now();
    await page.getByRole('button', { name: 'Plan', exact: true }).click();
    await page.getByText(/^Best: tonight/).waitFor();
    told.push(performance.now() - begun);
    await barsShown(page);
    const taken = performance.now() - begun;
    await page.getByRole('button', { name: 'Stop, keep the best' }).click();
    await planShown(page);
    await close();
    return taken;
  });
  return { told, bars };
}

/** From the key that moves a run, and the one that puts it down, to the plan with the run held there. */
export async function measureMove(theatre: Theatre, planned: string): Promise<number[]> {
  const { page, close } = await theatre.stage(theatre.copyOf(planned));
  await planShown(page);
  await selectRunToCome(page);
  const times = await repeatedly(async () => {
    await page.getByRole('application').press('m');
    const begun = performance.now();
    await page.keyboard.press('Shift+ArrowRight');
    await page.getByText('Can stand here', { exact: true }).waitFor();
    await page.keyboard.press('Enter');
    await page
      .getByRole('region', { name: 'Details' })
      .getByRole('checkbox', { name: /^at /, checked: true })
      .waitFor();
    await page
      .getByRole('region', { name: 'Details' })
      .getByText(/^Locked to /)
      .waitFor();
    await planShown(page);
    const taken = performance.now() - begun;
    await page.keyboard.press('Control+z');
    await page
      .getByRole('region', { name: 'Details' })
      .getByText(/^Locked to /)
      .waitFor({ state: 'hidden' });
    return taken;
  });
  await close();
  return times;
}

/** The first run of the first machine that has not begun and can be an hour later. */
async function selectRunToCome(page: Page): Promise<void> {
  const timeline = page.getByRole('application');
  const stays = page.getByText(/^Cannot stand here$|^On the floor already/);
  for (let steps = 0; steps < 30; steps++) {
    await timeline.press('ArrowRight');
    if (!(await page.getByRole('group', { name: 'Lock' }).isVisible())) continue;
    await timeline.press('m');
    await timeline.press('Shift+ArrowRight');
    const can = page.getByText('Can stand here', { exact: true });
    await can.or(stays).first().waitFor();
    const isFound = await can.isVisible();
    await timeline.press('Escape');
    if (isFound) return;
  }
  throw new Error('No run of the plan can be an hour later.');
}

/** From the edit of a due time to the plan made around it, with one second to plan in. */
export async function measureEdit(theatre: Theatre, planned: string): Promise<number[]> {
  const { page, close } = await theatre.stage(theatre.copyOf(planned));
  await planShown(page);
  await setSeconds(page, 1);
  let day = 9;
  const times = await repeatedly(async () => {
    await page.keyboard.press('Alt+5');
    const due = page.getByRole('textbox', { name: 'Due' }).first();
    await due.fill(`${day++} Dec 2026 16:00`);
    const begun = performance.now();
    await due.press('Enter');
    await page.keyboard.press('Alt+1');
    await page.getByRole('button', { name: 'Plan the rest around the changes' }).click();
    await page.getByRole('button', { name: 'Stop, keep the best' }).waitFor();
    await planShown(page);
    return performance.now() - begun;
  });
  await close();
  return times;
}

async function repeatedly(measure: () => Promise<number>): Promise<number[]> {
  const times: number[] = [];
  for (let time = 0; time < TIMES; time++) times.push(await measure());
  return times;
}
