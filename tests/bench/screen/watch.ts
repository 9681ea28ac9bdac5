import type { Page } from 'playwright-core';
import { type Frames, framesOf } from './figures';

/** What a page did while it was watched. */
export interface Watched {
  readonly frames: Frames;
  /** Milliseconds of scripts, and of scripts, style, layout and painting by the page's own thread, a frame. */
  readonly script: number;
  readonly task: number;
  /** Tasks over 50 ms, milliseconds. */
  readonly longTasks: readonly number[];
}

interface Recorded {
  readonly times: readonly number[];
  readonly long: readonly number[];
}

/** As text: what is compiled for this process would name helpers that a page does not have. */
const RECORD = `
  const recorder = (globalThis.recorder = { times: [], long: [], on: true });
  new PerformanceObserver((list) => recorder.long.push(...list.getEntries().map(({ duration }) => duration)))
    .observe({ type: 'longtask' });
  const tick = (time) => {
    recorder.times.push(time);
    if (recorder.on) requestAnimationFrame(tick);
  };
  requestAnimationFrame(tick);
  undefined;`;

/** Watches frames and long tasks of a page while something is done to it. */
export async function watched(page: Page, act: () => Promise<void>): Promise<Watched> {
  const client = await page.context().newCDPSession(page);
  await client.send('Performance.enable');
  const spent = async (): Promise<Map<string, number>> =>
    new Map((await client.send('Performance.getMetrics')).metrics.map(({ name, value }) => [name, value]));
  await page.evaluate(`{${RECORD}}`);
  const before = await spent();
  await act();
  const after = await spent();
  const { times, long } = await page.evaluate<Recorded>('recorder.on = false, recorder');
  await client.detach();
  const perFrame = (name: string): number =>
    (1000 * ((after.get(name) ?? 0) - (before.get(name) ?? 0))) / Math.max(times.length, 1);
  return {
    frames: framesOf(times),
    script: perFrame('ScriptDuration'),
    task: perFrame('TaskDuration'),
    longTasks: long,
  };
}
