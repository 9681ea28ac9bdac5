import type { Page } from 'playwright-core';
import { nightShop } from '../night-generator';
import { planShown, type Theatre } from './stage';
import { type Watched, watched } from './watch';

/** A shop whose plan has more than 5,000 bars. */
const SIZE = { machines: 50, runs: 5600 };
const LEAST_RUNS = 5000;
const PLAN_SECONDS = 2;
const WATCHED_MS = 5000;

export interface Moving {
  readonly runs: number;
  readonly panning: Watched;
  readonly hovering: Watched;
}

/** A plan of thousands of runs under a wheel that pans and zooms, and under a mouse that goes over it. */
export async function measureMoving(theatre: Theatre): Promise<Moving> {
  const { folder, runs } = await theatre.planned(nightShop(SIZE, 1), PLAN_SECONDS);
  if (runs < LEAST_RUNS) throw new Error(`The plan has ${runs} runs, not ${LEAST_RUNS}.`);
  const { page, close } = await theatre.stage(folder);
  await planShown(page);
  await page.getByRole('button', { name: 'All', exact: true }).click();
  const box = await page.getByRole('application').boundingBox();
  if (box === null) throw new Error('The timeline is not on the screen.');
  const [left, top] = [box.x + 20, box.y + 20];
  const [wide, high] = [box.width - 40, Math.min(box.height, 400) - 40];
  await page.mouse.move(left + wide / 2, top + high / 2);
  const panning = await watched(page, () => repeated((step) => turnWheel(page, step)));
  const hovering = await watched(page, () =>
    repeated((step) => page.mouse.move(left + sweep(step, 97) * wide, top + sweep(step, 411) * high)),
  );
  await close();
  return { runs, panning, hovering };
}

/** In for a while, along, out again, back: each as a hand turns a wheel. */
function turnWheel(page: Page, step: number): Promise<void> {
  const phase = Math.floor(step / 12) % 4;
  if (phase === 0) return page.mouse.wheel(0, -120);
  if (phase === 2) return page.mouse.wheel(0, 120);
  return page.mouse.wheel(phase === 1 ? 90 : -90, 0);
}

/** From 0 to 1 and back in so many steps. */
function sweep(step: number, steps: number): number {
  const at = (step % (2 * steps)) / steps;
  return at < 1 ? at : 2 - at;
}

async function repeated(act: (step: number) => Promise<void>): Promise<void> {
  const end = performance.now() + WATCHED_MS;
  for (let step = 0; performance.now() < end; step++) await act(step);
}
