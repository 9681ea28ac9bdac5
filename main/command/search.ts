import type { Plan } from '../../core/shop';
import { messageOf } from '../refusal';
import type { Terminal } from './terminal';

export const MOST_SECONDS = 86_400;
export const MOST_SEED = 0x7fffffff;

/** Runs the engine; Ctrl-C ends it early with its best plan. Null, and a remark, if it found none. */
export async function planned(
  terminal: Terminal,
  run: (stopped: () => boolean) => Promise<Plan>,
): Promise<Plan | null> {
  let stop = false;
  terminal.onStop(() => {
    stop = true;
  });
  try {
    return await run(() => stop);
  } catch (error) {
    terminal.remark(`No plan was found: ${messageOf(error)}`);
    return null;
  }
}
